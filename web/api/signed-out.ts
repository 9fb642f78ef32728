/** Goes up when the server says that this device has to say the passphrase. Nothing that waits is lost by it. */
import { signal } from '@preact/signals';

export const signedOut = signal(false);
