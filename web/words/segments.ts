export const segments = {
  title: 'Steps',
  hint: 'Not needed. The kiln maker’s handbook rules.',
  step: (n: number) => `Step ${n}`,
  rate: '°C an hour',
  target: 'to °C',
  hold: 'hold, minutes',
  add: 'Add a step',
  remove: 'Take the last step away',
} as const;
