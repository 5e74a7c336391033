import type { Complaint, DrawnShape } from '@underlap/artwork/drawing';
import { complain } from './draft.ts';
import { meetingsOf } from './meetings.ts';
import { Twins } from './twins.ts';

/**
 * Outlines that would be cut though an equal lies alone elsewhere: guides, drawn in the colour and on the layer of what is cut?
 * Nothing tells, so a person is asked.
 * @param shapes - those that are cut.
 */
export function twinQuestions(shapes: readonly DrawnShape[], mode: 'stacked' | 'spread'): Complaint[] {
  const meetings = meetingsOf(shapes);
  const { outlines, liesIn, crosses } = meetings;
  const twins = new Twins(meetings);
  const isAny = (): boolean => true;
  const asked = [...outlines.keys()].flatMap((index) => {
    const own = outlines[index]!;
    const isOnOther = liesIn[index]!.length > 0 || crosses[index]!.some((other) => outlines[other]!.area > own.area);
    const twin = isOnOther ? twins.twinOf(index, isAny) : null;
    return twin === null ? [] : [{ own, twin }];
  });
  const [first] = asked;
  if (first === undefined) return [];
  const lines = asked.length === 1 ? 'an outline that lies' : `${asked.length} outlines that lie`;
  const equals = [...new Set(asked.map(({ twin }) => `'${twin.shape.name ?? twin.shape.id}'`))];
  const shown =
    equals.length > 4 ? `${equals.slice(0, 3).join(', ')} and ${equals.length - 3} more` : equals.join(', ');
  const taken = mode === 'spread' ? (asked.length === 1 ? 'a hole' : 'holes') : asked.length === 1 ? 'a part' : 'parts';
  const message = `${lines} on others ${asked.length === 1 ? 'equals' : 'equal'} parts that lie alone (${shown}), and ${asked.length === 1 ? 'is' : 'are'} cut as ${taken}: if they only show where those parts go, give them a layer or colour of their own and say so with --key "LAYER=score"`;
  return [complain('twin-outlines', 'warning', message, first.own.shape.place)];
}
