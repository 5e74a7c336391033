import { createContext } from 'react';

/** Where the places of a sentence say what is wrong: below it; null = beside the place itself. */
export const ProblemSlot = createContext<HTMLElement | null>(null);
