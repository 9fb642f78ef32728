/** `first-paper.ts cold|warmed`: tells as JSON how long the first paper of this process takes. */
import { warmUp } from '../../server/paper/warm.ts';
import { JUG, once } from './papers.ts';

if (process.argv[2] === 'warmed') await warmUp();
const { clock, processor } = await once(JUG, 'A4');
process.stdout.write(JSON.stringify({ clock, processor }));
