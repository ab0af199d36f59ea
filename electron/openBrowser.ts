/** Opens an address in the builder's browser, where there is one; it never fails. */
import { spawn } from 'node:child_process'
import type { ChildProcess } from 'node:child_process'

/** Program and arguments that open an address on this system. */
export function openCommand(address: string, platform = process.platform): [string, string[]] {
  if (platform === 'darwin') return ['open', [address]]
  if (platform === 'win32') return ['rundll32', ['url.dll,FileProtocolHandler', address]]
  return ['xdg-open', [address]]
}

/** Starts the system's opener and forgets it; does nothing where there is no display to open one on. */
export function openBrowser(address: string): void {
  const { DISPLAY, WAYLAND_DISPLAY } = process.env
  if (process.platform === 'linux' && !DISPLAY && !WAYLAND_DISPLAY) return
  const [program, args] = openCommand(address)
  const child: ChildProcess = spawn(program, args, { stdio: 'ignore', detached: true })
  child.on('error', () => undefined)
  child.unref()
}
