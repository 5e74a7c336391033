import type { Random } from '@underlap/nest/search/random';
import type { TurnState } from '@underlap/nest/turn/turn-state';

/** Leave a layout: exchange two unlike pieces among the larger half, turn one about, or lay some anew at random. */
export function disturbTurned(state: TurnState, random: Random): void {
  const kind = random();
  if (kind < 0.6) exchange(state, random);
  else if (kind < 0.8) turnAbout(state, random);
  else {
    exchange(state, random);
    turnAbout(state, random);
  }
}

function exchange(state: TurnState, random: Random): void {
  const order = Array.from({ length: state.items }, (_, i) => i).sort(
    (a, b) => state.factor[b]! - state.factor[a]! || a - b,
  );
  const large = order.slice(0, Math.max(2, Math.ceil(order.length / 2)));
  for (let tries = 0; tries < 20; tries++) {
    const a = large[(random() * large.length) | 0]!;
    const b = large[(random() * large.length) | 0]!;
    if (a === b || state.form[a] === state.form[b] || state.board[a] !== state.board[b]) continue;
    const [x, y] = [state.x[a]!, state.y[a]!];
    state.place(a, state.x[b]!, state.y[b]!, state.angle[a]!);
    state.place(b, x, y, state.angle[b]!);
    return;
  }
}

/** Half round, or any turn. */
function turnAbout(state: TurnState, random: Random): void {
  const item = (random() * state.items) | 0;
  if (state.mayTurn[item] === 0) return;
  const turn = random() < 0.5 ? Math.PI : 2 * Math.PI * random();
  state.place(item, state.x[item]!, state.y[item]!, state.angle[item]! + turn);
}
