import { useEffect, useState } from 'preact/hooks';
import { atHand, onDevice, places, studioAddress } from './addresses.ts';

interface Props {
  readonly sha256: string;
  readonly size: 'small' | 'whole';
  readonly alt: string;
  readonly width?: number | null;
  readonly height?: number | null;
  /** It is to be had nowhere. */
  readonly onGone: () => void;
}

/** A picture from wherever it is to be had. Another one is another element: give it its SHA-256 as key. */
export function Picture({ sha256, size, alt, width, height, onGone }: Props) {
  const near = atHand(sha256);
  const [order] = useState(places);
  const [failed, setFailed] = useState(0);
  const [here, setHere] = useState<string>();
  const place = order[failed];
  useEffect(() => {
    if (near) return;
    if (!place) onGone();
    if (place !== 'device') return;
    let address: string | undefined;
    let stays = true;
    void onDevice(sha256).then((blob) => {
      if (!stays) return;
      address = blob && URL.createObjectURL(blob);
      if (address) setHere(address);
      else setFailed((n) => n + 1);
    });
    return () => {
      stays = false;
      if (address) URL.revokeObjectURL(address);
    };
  }, [near, place, sha256]);
  const src = near ?? (place === 'device' ? here : place && studioAddress(sha256, size));
  return (
    <img
      src={src}
      alt={alt}
      loading={size === 'small' ? 'lazy' : undefined}
      decoding="async"
      width={width ?? undefined}
      height={height ?? undefined}
      onError={() => (near ? onGone() : setFailed((n) => n + 1))}
    />
  );
}
