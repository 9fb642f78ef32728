/** Reads the code of a label in a picture: by the browser where it can, else by a reader that is fetched then. */

interface Detector {
  detect(source: ImageBitmapSource): Promise<readonly { readonly rawValue: string }[]>;
}
interface DetectorMaker {
  new (options: { formats: readonly string[] }): Detector;
  getSupportedFormats(): Promise<readonly string[]>;
}

export type Read = (source: HTMLVideoElement | ImageBitmap) => Promise<string | undefined>;

/** Longest side in pixels that is looked at: enough for a label, quick on a phone. */
const LARGEST = 800;

async function built(): Promise<Read | undefined> {
  const Maker = (globalThis as { BarcodeDetector?: DetectorMaker }).BarcodeDetector;
  if (!Maker || !(await Maker.getSupportedFormats()).includes('qr_code')) return undefined;
  const detector = new Maker({ formats: ['qr_code'] });
  return async (source) => (await detector.detect(source))[0]?.rawValue;
}

async function fetched(): Promise<Read> {
  const { decodeQR } = await import('qr/decode.js');
  const canvas = document.createElement('canvas');
  const pen = canvas.getContext('2d', { willReadFrequently: true })!;
  return async (source) => {
    const [width, height] =
      source instanceof HTMLVideoElement
        ? [source.videoWidth, source.videoHeight]
        : [source.width, source.height];
    if (width === 0 || height === 0) return undefined;
    const scale = Math.min(1, LARGEST / Math.max(width, height));
    canvas.width = Math.round(width * scale);
    canvas.height = Math.round(height * scale);
    pen.drawImage(source, 0, 0, canvas.width, canvas.height);
    try {
      return decodeQR(pen.getImageData(0, 0, canvas.width, canvas.height), { timeLimit: 200 });
    } catch {
      // No code in this picture: the reader says so by throwing.
      return undefined;
    }
  };
}

export const openReader = async (): Promise<Read> =>
  (await built().catch(() => undefined)) ?? (await fetched());
