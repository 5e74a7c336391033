/** The usual cautions; always there, never in the way. */
export function Cautions() {
  return (
    <footer className="cautions">
      <details>
        <summary>Before you cut</summary>
        <ul>
          <li>Never leave a running laser; keep a fire extinguisher at hand.</li>
          <li>
            Extract fumes outdoors or through a proper filter: wood-fibre boards release formaldehyde and fine
            particles.
          </li>
          <li>Never cut PVC, vinyl or other chlorinated plastics, or a material you cannot identify.</li>
          <li>Keep the enclosure&rsquo;s interlocks in force (laser classes: IEC 60825-1; use: ANSI Z136.1).</li>
          <li>Fast glues bond skin and give off vapour.</li>
          <li>
            Try settings on scrap; follow the machine&rsquo;s manual, local rules and the advice of qualified people.
            Speeds and powers are your own: speeds serve time estimates only, and no power is recommended.
          </li>
        </ul>
      </details>
      <p>Everything is worked out in your browser. Nothing leaves this computer.</p>
    </footer>
  );
}
