export const caution = {
  title: 'Take care',
  open: 'Isolate the kiln from its supply first, and open it cold, at room temperature. The kiln maker’s handbook rules.',
  light:
    'Damp ware bursts: be sure that every piece is dry. Firing gives off fumes: ventilate, and let nobody sleep or work beside the kiln. Wiring is for a licensed electrician.',
  handbook: 'Where the kiln maker’s handbook or your local rules say otherwise, they rule.',
} as const;
