import { countText } from './numbers.ts';

const times = (n: number): string => (n === 1 ? 'once' : n === 2 ? 'twice' : `${countText(n)} times`);

/** What is handed out as a file: what an item comes from, links, and how a buyer gets there. */
export const handouts = {
  source: 'The file that is handed out',
  sourceTemplate: 'The template it is printed from',
  fromTemplate: 'It is drawn from the template',
  fromFile: 'It is this file:',
  none: 'There is nothing to hand out yet. Choose a template or a PDF.',
  noneTemplate: 'It is not linked to a template that is kept here.',
  template: 'Template it comes from',
  templateHint: 'One of the templates that are kept here. Each buyer chooses the paper.',
  noTemplate: 'none',
  keepTemplates: 'No template is kept yet.',
  toTemplates: 'Make one',
  chooseTemplate: 'Take this template',
  templateDone: 'The template was linked',
  file: 'A PDF from this device',
  fileHint: 'Up to 25 MB. The order’s number and the licence line go on the foot of every page.',
  newFile: 'A newer PDF in its place',
  sending: 'Keeping the PDF.',
  fileDone: 'The PDF is kept',
  notPdf: 'This file is not a PDF, or it breaks off. Save it once more as PDF.',
  tooLarge: 'A PDF may have up to 25 MB. Make its pictures smaller and save it again.',
  licence: 'What a buyer may do with it',
  licenceHint: 'One line, as: For your own pots, to keep or to sell.',

  linkStands: (until: string, done: number, most: number) =>
    `Until ${until}, at most ${times(most)}; ${done === 0 ? 'not handed out yet' : `handed out ${times(done)}`}.`,
  over: 'Over',
  usedUp: 'Used up',
  withdrawn: 'Taken back',
  address: 'Address to send to the buyer',
  copy: 'Copy the address',
  copied: 'Address copied',
  look: 'See what the buyer gets',
  withdraw: 'Take it back',
  withdrawDone: 'The link was taken back',
  make: 'Make a link',
  until: 'Last day',
  most: 'How often it may be fetched',
  makeSubmit: 'Make the link',
  makeDone: 'Link made',
  attach: 'Attach it to a message',
  attachAbout:
    'The PDF has the order’s number on it. Save it, attach it to your message, and it is noted as handed out.',
  paper: 'The buyer’s paper',
  save: 'Save the PDF and note it',
  saveDone: 'Noted as handed out with a message',
  savedWaiting: 'It is noted, but the PDF can be saved only when the studio can be reached.',
  toItem: 'Add it to the item',

  nobody:
    'Nobody outside can open this link: Wareboard answers on this machine only. Attach the PDF to your message, or give it an address of your own.',
  onlyNetwork:
    'This link opens in the workshop’s own network only. To a buyer elsewhere, attach the PDF to your message, or give it an address of your own.',
  outside: (address: string) => `Buyers open it at ${address}.`,
  toReach: 'How buyers reach it',
  noLink: 'The address could not be had just now.',

  title: 'Links to files',
  about: 'Where buyers open the links that you send them.',
  lead: 'A link leads to this machine. Outside it works only if the world can reach it.',
  ways: 'Three ways to a buyer',
  wayMessage:
    'Attached to a message: always works. The PDF carries the order’s number, and what went out is noted.',
  wayNetwork:
    'On the workshop’s network (started with serve --network): for somebody who stands beside you, not for a buyer elsewhere.',
  wayOwn:
    'Under an address of your own: a domain whose proxy or tunnel, with https, leads to this machine. Only links are answered there; nothing else of the studio is shown.',
  own: 'An address of your own',
  ownField: 'Address',
  ownHint: 'As https://files.example, with nothing behind it.',
  ownSubmit: 'Use this address',
  ownNone: 'Use no address',
  ownDone: 'Address noted',
  shutTitle: 'When a link went to the wrong place',
  shut: 'Shut all links',
  shutWhy:
    'One link is taken back on its order’s page. Here all are shut at once: no link that was made so far opens any more.',
  shutSubmit: 'Shut all links that were made',
  shutDone: 'All links are shut. Make new ones where they are needed.',

  soldAs: 'In the shop',
  inStock: (name: string, stock: number) => `${name}: ${countText(stock)} in stock`,
  notCounted: (name: string) => `${name}: not counted yet`,
  asFile: (name: string) => `${name}: a file`,
  notSold: 'Not in the shop.',
  sell: 'Add it to the shop',
  run: 'Note a print run',
  runSubmit: 'Note what was printed',
  runDone: (count: number, name: string) => `${countText(count)} of ${name} printed`,
  runOn: 'On paper',
  runOf: (name: string) => `Note a print run of ${name}`,
} as const;
