import { expose } from 'comlink';
import { afterEach, describe, expect, it } from 'vitest';
import type { WorkbenchApi } from './api.ts';
import { ANSWER_WITHIN_MS, WorkClient } from './client.ts';
import { faultOf, WorkFault } from './fault.ts';

type Answers = Partial<{ [Name in keyof WorkbenchApi]: () => Promise<unknown> }>;

/** A worker at the other end of a channel, in this thread; `answers` is what it exposes. */
class PretendWorker extends EventTarget {
  readonly channel = new MessageChannel();
  isEnded = false;

  constructor(answers: Answers) {
    super();
    expose(answers, this.channel.port2);
    this.channel.port1.addEventListener('message', (event) => {
      if (!this.isEnded) this.dispatchEvent(new MessageEvent('message', { data: event.data }));
    });
    this.channel.port1.start();
  }

  postMessage(message: unknown): void {
    this.channel.port1.postMessage(message);
  }

  terminate(): void {
    this.isEnded = true;
    this.channel.port1.close();
  }
}

const made: PretendWorker[] = [];
afterEach(() => {
  for (const worker of made.splice(0)) worker.terminate();
});

/** A client whose workers answer, in turn, as listed. */
function clientOf(...answers: Answers[]): WorkClient {
  return new WorkClient(() => {
    const worker = new PretendWorker(answers[made.length] ?? {});
    made.push(worker);
    return worker as unknown as Worker;
  });
}

const never = (): Promise<never> => new Promise(() => undefined);
const prompt: Answers = { ping: async () => true, cancel: async () => undefined, coupon: async () => 'answered' };
/** Deep in work: nothing is answered. */
const deep: Answers = { ping: never, cancel: never, stopTrying: never, coupon: never, archive: never };
const codeOf = (question: Promise<unknown>): Promise<string> => question.then(String, (error) => faultOf(error).code);

describe('the worker of the page', () => {
  it('is replaced when it does not answer; every question that waits for it ends as cancelled, later ones are answered', async () => {
    const client = clientOf(deep, prompt);
    const waiting = [codeOf(client.ask((api) => api.coupon())), codeOf(client.ask((api) => api.archive()))];
    expect(await client.cancel()).toBe(true);
    expect(await Promise.all(waiting)).toEqual(['cancelled', 'cancelled']);
    expect(made[0]?.isEnded).toBe(true);
    expect(await codeOf(client.ask((api) => api.coupon()))).toBe('answered');
    expect(made).toHaveLength(2);
  });

  it('stays when it answers in time, with what it was asked before', async () => {
    let answer: (words: string) => void = () => undefined;
    const slow = new Promise<string>((resolve) => {
      answer = resolve;
    });
    const client = clientOf({ ...prompt, coupon: () => slow });
    const waiting = codeOf(client.ask((api) => api.coupon()));
    expect(await client.cancel()).toBe(false);
    answer('late but whole');
    expect(await waiting).toBe('late but whole');
    expect(made).toHaveLength(1);
  });

  it('is ended once by two that insist, and neither ends the one after it', async () => {
    const client = clientOf(deep, prompt);
    const waiting = codeOf(client.ask((api) => api.coupon()));
    const first = client.cancel();
    await new Promise((resolve) => setTimeout(resolve, ANSWER_WITHIN_MS / 4));
    const second = client.insist((api) => api.stopTrying());
    expect(await first).toBe(true);
    const next = codeOf(client.ask((api) => api.coupon()));
    expect(await second).toBe(false);
    expect(await Promise.all([waiting, next])).toEqual(['cancelled', 'answered']);
    expect(made.map((worker) => worker.isEnded)).toEqual([true, false]);
  });

  it('is not started to be told that it may stop', async () => {
    const client = clientOf(prompt);
    expect(await client.cancel()).toBe(false);
    expect(made).toHaveLength(0);
  });

  it('is replaced when it breaks down, which is told to everybody who waits', async () => {
    const client = clientOf(deep, prompt);
    const waiting = client.ask((api) => api.coupon());
    made[0]?.dispatchEvent(new Event('error'));
    await expect(waiting).rejects.toBeInstanceOf(WorkFault);
    expect(await codeOf(waiting)).toBe('internal');
    expect(await codeOf(client.ask((api) => api.coupon()))).toBe('answered');
  });

  it('says its own faults whole', async () => {
    const fault = { code: 'job-invalid', message: 'The bed is too small.', place: 'bed.width' };
    const client = clientOf({ coupon: () => Promise.reject(new WorkFault(fault)) });
    await expect(client.ask((api) => api.coupon())).rejects.toMatchObject({ fault });
  });
});
