/**
 * What the studio decides with: its events, the streams they fold in, its commands. All of it is pure
 * and needs no database, so the page runs it too, to decide ahead while it is offline.
 */
import { studioEvents } from '../contract/studio/events.ts';
import { attach } from './attach.ts';
import * as firing from './firing/commands.ts';
import { firingKind } from './firing/firing.ts';
import { reserve } from './marks/commands.ts';
import { marksKind } from './marks/marks.ts';
import * as material from './materials/commands.ts';
import {
  clayKind,
  glazeKind,
  kilnKind,
  personKind,
  scheduleKind,
  studioKind,
} from './materials/materials.ts';
import * as begin from './piece/begin.ts';
import { decideRepair, declineRepair, doRepair, findFault, tellOwner } from './piece/faults.ts';
import { glaze } from './piece/glaze.ts';
import { grade } from './piece/grade.ts';
import { comeBack, leave, price } from './piece/leave.ts';
import { lookOver } from './piece/look-over.ts';
import { pieceKind } from './piece/lot.ts';

export const deciding = {
  wants: ['files'],
  prefixes: [
    'piece',
    'lot',
    'glaze',
    'firing',
    'fault',
    'repair',
    'clay',
    'schedule',
    'kiln',
    'word',
    'person',
    'studio',
    'file',
    'mark',
  ],
  events: studioEvents,
  streams: [
    pieceKind,
    firingKind,
    clayKind,
    glazeKind,
    scheduleKind,
    kilnKind,
    studioKind,
    personKind,
    marksKind,
  ],
  commands: {
    'piece.begin': begin.begin,
    'piece.move-on': begin.moveOn,
    'piece.recount': begin.recount,
    'piece.change-owner': begin.changeOwner,
    'piece.note': begin.note,
    'piece.look-over': lookOver,
    'piece.grade': grade,
    'piece.price': price,
    'piece.leave': leave,
    'piece.return': comeBack,
    'mark.reserve': reserve,
    'lot.split': begin.split,
    'glaze.apply': glaze,
    'fault.find': findFault,
    'repair.decide': decideRepair,
    'repair.do': doRepair,
    'repair.decline': declineRepair,
    'piece.tell-owner': tellOwner,
    'firing.pack': firing.pack,
    'firing.unpack': firing.unpack,
    'firing.light': firing.light,
    'firing.read': firing.read,
    'firing.end': firing.end,
    'firing.draw': firing.draw,
    'firing.abandon': firing.abandon,
    'clay.add': material.addClay,
    'clay.change': material.changeClay,
    'clay.open-batch': material.openBatch,
    'glaze.add': material.addGlaze,
    'glaze.change': material.changeGlaze,
    'glaze.mix-batch': material.mixBatch,
    'schedule.write': material.writeSchedule,
    'kiln.add': material.addKiln,
    'kiln.change': material.changeKiln,
    'word.add': material.addWord,
    'file.attach': attach,
    'person.add': material.addPerson,
    'person.forget': material.forgetPerson,
    'studio.set': material.setStudio,
  },
} as const;
