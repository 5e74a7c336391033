import { decodeText } from './decode-text.ts';
import { binaryDxfAsText } from './dxf/binary-dxf.ts';

/**
 * The text of an artwork or job file, whatever its encoding; a binary DXF as the text DXF that says the same. Programs that keep
 * artwork as text read every file through this and never decode bytes themselves.
 * @returns for bytes that are no text whatever a decoder makes of them: `readArtwork` says what is wrong with it.
 */
export function artworkText(bytes: Uint8Array): string {
  return decodeText(binaryDxfAsText(bytes) ?? bytes);
}
