import { describe, expect, it } from 'vitest';
import { parseColour } from './colour.ts';

describe('parseColour', () => {
  // Values from CSS Color Module Level 4 (W3C): named colours, and the examples of its notations.
  it.each([
    ['red', '#ff0000'],
    ['RebeccaPurple', '#663399'],
    ['lightgoldenrodyellow', '#fafad2'],
    ['#0f0', '#00ff00'],
    ['#0F0F', '#00ff00'],
    ['#12aB34', '#12ab34'],
    ['#12ab3480', '#12ab34'],
    ['rgb(255, 0, 153)', '#ff0099'],
    ['rgb(255 0 153 / 80%)', '#ff0099'],
    ['rgba(100%,0%,60%,1)', '#ff0099'],
    ['rgb(300,-5,0)', '#ff0000'],
    ['hsl(120, 100%, 25%)', '#008000'],
    ['hsl(120deg 100 25)', '#008000'],
    ['hsla(0.5turn,100%,50%,0.3)', '#00ffff'],
    ['hwb(150 20% 10%)', '#33e68c'],
    ['hwb(0 60% 60%)', '#808080'],
  ])('reads %s', (text, colour) => {
    expect(parseColour(text)?.colour).toBe(colour);
  });

  it('tells what is transparent', () => {
    expect(parseColour('transparent')?.alpha).toBe(0);
    expect(parseColour('rgba(1,2,3,0)')?.alpha).toBe(0);
    expect(parseColour('#1230')?.alpha).toBe(0);
    expect(parseColour('#1238')?.alpha).toBeCloseTo(0x88 / 255);
  });

  it.each([
    '',
    'none',
    'currentColor',
    '#12',
    '#12345',
    '#xyz',
    'rgb(1,2)',
    'rgb(a,b,c)',
    'hsl(x,1%,1%)',
    'url(#a)',
    'constructor',
  ])('refuses %s', (text) => {
    expect(parseColour(text)).toBeNull();
  });
});
