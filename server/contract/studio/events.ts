/** The studio's own events: names are fixed, shapes may grow by version. */
import type { z } from 'zod';
import { firingEvents } from './firing-events.ts';
import { materialEvents } from './material-events.ts';
import { pieceEvents } from './piece-events.ts';

export const studioEvents = { ...pieceEvents, ...firingEvents, ...materialEvents };

type Shapes = typeof studioEvents;
export type StudioEventName = keyof Shapes;
/** The data of one of the studio's events. */
export type StudioData<Name extends StudioEventName> = z.infer<Shapes[Name]['shape']>;
