/** `passphrase`: sets what every device on the workshop's network has to say once. */
import { ADVISED, BadPassphrase } from '../network/passphrase.ts';
import { atWork } from './enter.ts';
import { Failed, type Verb } from './verb.ts';
import { exactly } from './words.ts';

export const passphrase: Verb = {
  name: 'passphrase',
  usage: 'passphrase',
  about:
    'Set the passphrase that lets phones and other laptops in (asked for, never shown); every device is signed out',
  async run(words, desk) {
    exactly(words, passphrase);
    const { terminal } = desk;
    const said = await terminal.secret(`Passphrase (${ADVISED} characters or more are advised): `);
    if (said === undefined) throw new Failed('No passphrase came in; nothing was changed.');
    if (terminal.watched && (await terminal.secret('The same again: ')) !== said)
      throw new Failed('The two were not the same; nothing was changed.');
    await atWork(words, desk, (at) => at.passphrase(said)).catch((error: unknown) => {
      throw error instanceof BadPassphrase ? new Failed(error.message) : error;
    });
    const short = [...said.trim()].length < ADVISED;
    terminal.out(
      `The passphrase is set. Every device has to say it once.${short ? ` It is short: ${ADVISED} characters or more are harder to guess.` : ''}\n`,
    );
    return 0;
  },
};
