export const phone = {
  title: 'Open it on the phone',
  lead: 'The page on this laptop can be opened on a phone or another laptop in the workshop’s own network, and goes on working there while the network is away.',
  about: 'Let a phone or another laptop in, and see which ones are.',
  here: 'On the laptop that Wareboard runs on, open Settings and then Open it on the phone.',
  passphraseTitle: 'The passphrase',
  passphraseNone: 'First set a passphrase. Each device has to say it once.',
  passphraseSet:
    'A passphrase is set. It is kept so that nobody can read it back; if it is forgotten, set a new one.',
  passphrase: 'Passphrase',
  passphraseHint: '15 characters or more are advised: four or five words that nobody would put together.',
  passphraseShort: (n: number) =>
    n === 1 ? 'One character more is advised.' : `${n} characters more are advised.`,
  passphraseShow: 'Show what I type',
  passphraseSave: 'Set the passphrase',
  passphraseChange: 'Set another passphrase',
  passphraseOut: 'Every device is signed out and has to say the new one.',
  passphraseDone: 'The passphrase is set.',
  startTitle: 'Start it for the network',
  start: 'Stop Wareboard where it runs, and start it with:',
  startCommand: 'npm start -- --network',
  startThen: 'Then come back to this page.',
  opening: 'The network is being opened…',
  trouble: 'The network could not be opened.',
  trustTitle: 'First, once for each device: let it trust this laptop',
  trust:
    'Point the phone’s camera at this square while it is in the workshop’s network, and follow what the page says.',
  openTitle: 'Then open Wareboard',
  open: 'Point the camera at this one, say the passphrase, and put the page on the phone’s home screen.',
  other: 'If the phone does not find that address, try:',
  keep: 'Keep to one address on each device: what waits on it to be sent is kept for that address.',
  fingerprintTitle: 'What the phone must show',
  fingerprint:
    'Before you trust the certificate, look at its SHA-256 on the phone. It must be the same as here:',
  noAddress:
    'This laptop is in no network at present. Join the workshop’s network, and the squares will stand here.',
  lost: (host: string) =>
    `Devices know this laptop as ${host}, and it does not have that address any more. What waits on them is kept for the old address: let the router give this laptop the same number always, then start Wareboard again.`,
  care: [
    'Do this only in a network of your own, with a password that you gave to nobody else. In a café, at a market or in a shared house leave it off.',
    'Do not let your router pass the internet through to this laptop.',
  ],
  careMore:
    'Whoever is in the same network can see that Wareboard is there, and nothing of what is in it. What goes between phone and laptop can be read by neither neighbour nor router.',
  qr: (address: string) => `A square to be read by a phone’s camera: ${address}`,
  devicesTitle: 'Devices that may come in',
  devicesNone: 'No device has come in yet.',
  thisDevice: 'this device',
  seen: (when: string) => `last seen ${when}`,
  since: (day: string) => `let in on ${day}`,
  away: 'Send away',
  awaySure: (name: string) =>
    `${name} will have to say the passphrase again. What it holds already stays on it.`,
  awayDo: 'Send it away',
  awayDone: (name: string) => `${name} was sent away.`,
  signOut: 'Sign this device out',
  hintTitle: 'On the phone, too',
  hint: 'This page can be kept open on the phone beside the kiln.',
  hintLink: 'How to open it on the phone',
  hintClose: 'Not now',
} as const;

export const signIn = {
  title: 'Say the passphrase',
  lead: 'It was set on the laptop that Wareboard runs on. Each device says it once.',
  again: 'This device was signed out. What you entered on it is kept.',
  passphrase: 'Passphrase',
  name: 'What to call this device',
  nameHint: 'So that you know it in the list, and can send it away if it is lost.',
  submit: 'Come in',
  checking: 'One moment…',
  wait: (seconds: number) =>
    seconds === 1 ? 'Try again in one second.' : `Try again in ${seconds} seconds.`,
  forgotten: 'Forgotten? Set a new one on the laptop, under Settings.',
  devices: {
    iphone: 'iPhone',
    ipad: 'iPad',
    android: 'Android phone',
    mac: 'Mac',
    windows: 'Windows laptop',
    other: 'Another device',
  },
} as const;
