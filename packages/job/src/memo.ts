/** The last few results of a stage by key, so that undo, redo and trying something out cost nothing. */
export class Memo<T> {
  private readonly entries = new Map<string, T>();

  constructor(private readonly kept: number) {}

  get(key: string): T | undefined {
    const value = this.entries.get(key);
    if (value !== undefined) {
      this.entries.delete(key);
      this.entries.set(key, value);
    }
    return value;
  }

  set(key: string, value: T): void {
    this.entries.delete(key);
    this.entries.set(key, value);
    if (this.entries.size > this.kept) this.entries.delete(this.entries.keys().next().value as string);
  }

  forget(key: string): void {
    this.entries.delete(key);
  }

  /** The value kept under the key, else a new one; what fails is not kept. */
  async of(key: string, make: () => Promise<T>): Promise<T> {
    const known = this.get(key);
    if (known !== undefined) return known;
    const made = await make();
    this.set(key, made);
    return made;
  }
}
