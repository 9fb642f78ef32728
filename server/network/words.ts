/** What the plain page says that hands out the certificate: all of its words, to be translated in one place. */
export const trust = {
  language: 'en-GB',
  title: 'Let this device trust Wareboard',
  lead: 'Once for each phone or laptop. Afterwards the page opens without a warning, works without the network, and what goes between the two cannot be read on the way.',
  get: 'Get the certificate',
  file: 'wareboard-authority.crt',
  compareTitle: 'Compare before you trust it',
  compare:
    'Both sides must show the same letters and figures. On the laptop they stand under Settings, Open it on the phone. On this device look for them among the details of the certificate, under SHA-256. If they differ, somebody else may be answering: stop, and take the certificate away again.',
  here: 'As handed out here',
  iphoneTitle: 'iPhone or iPad',
  iphone: [
    'Open this page in Safari, tap “Get the certificate”, and allow the download.',
    'Open Settings. Near the top it says “Profile Downloaded”: tap it and then Install. Compare the figures under More Details.',
    'Then Settings, General, About, Certificate Trust Settings: switch on Wareboard.',
  ],
  androidTitle: 'Android',
  android: [
    'Tap “Get the certificate”. The file goes to Downloads.',
    'Open Settings and search for “CA certificate” (on most phones under Security, Encryption and credentials, Install a certificate). Choose CA certificate and then the file. The phone warns you; that is as it should be.',
    'Compare the figures under Trusted credentials, User. Use Chrome: some other browsers do not look there.',
  ],
  laptopTitle: 'A second laptop',
  laptop: [
    'Windows: open the file, Install Certificate, Local Machine, and place it in “Trusted Root Certification Authorities”.',
    'Mac: open the file, let Keychain Access add it, then open it there and under Trust choose Always Trust.',
    'Firefox: Settings, Privacy and Security, View Certificates, Authorities, Import; tick “identify websites”.',
  ],
  thenTitle: 'Then open Wareboard',
  thenOpen: 'Always by the same address: what waits on this device to be sent is kept for that address.',
  onlyTitle: 'What the certificate can do',
  only: 'It can vouch for the machine that Wareboard runs on and for numbers of a network of your own, and for nothing else. To take it away again, remove it where you added it.',
  lost: 'There is nothing at this address.',
} as const;
