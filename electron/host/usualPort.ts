/**
 * The port that each start takes, where it can be had: a browser keeps what could not be written down by
 * address, so the address should be the same one the next time.
 */
import { startHost } from './host'
import type { Host, HostOptions } from './host'

/** Below what systems hand out by themselves (32768 and up on Linux, 49152 and up elsewhere). */
export const USUAL_PORT = 28417

/** What a system says of a port that another program holds, or that nobody may have. */
const NOT_TO_BE_HAD = ['EADDRINUSE', 'EACCES']

/**
 * Starts the host at the usual port, else at any free one.
 * @throws the system's error where no port can be had
 */
export async function startAtUsualPort(
  options: Omit<HostOptions, 'port'>, usualPort = USUAL_PORT,
): Promise<{ host: Host; usual: boolean }> {
  try {
    return { host: await startHost({ ...options, port: usualPort }), usual: true }
  } catch (error) {
    if (!NOT_TO_BE_HAD.includes((error as NodeJS.ErrnoException).code ?? '')) throw error
    return { host: await startHost({ ...options, port: 0 }), usual: false }
  }
}
