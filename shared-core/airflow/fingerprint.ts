/**
 * A short name for what two runs have in common when their entries are the same (FNV-1a, 32 bits
 * twice): a traverse copied from run to run is one measurement, not two.
 */
export function fingerprint(content: unknown): string {
  const text = JSON.stringify(content)
  return [0x811c9dc5, 0x9747b28c].map((start) => {
    let hash = start
    for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193)
    return (hash >>> 0).toString(36)
  }).join('')
}
