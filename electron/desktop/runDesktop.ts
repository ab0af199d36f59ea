/** Runs the desktop window and tells how it ended: a window that never stood is told from one that was closed. */
import { spawn } from 'node:child_process'
import type { ChildProcess } from 'node:child_process'
import { readFileSync } from 'node:fs'

export type Ended =
  /** It stood, and was closed or asked to end. */
  | { kind: 'closed' }
  /** It ended by itself before it can have stood. */
  | { kind: 'stillborn'; why: string }
  /** It stood and then ended by itself. */
  | { kind: 'died'; why: string }

export interface Run {
  binary: string
  args: readonly string[]
  environment: NodeJS.ProcessEnv
  platform?: NodeJS.Platform
  /** Where the signals to this process arrive. */
  signals?: NodeJS.EventEmitter
  say?: (line: string) => void
  /** A window that ends with an error so soon never stood, ms. */
  stillbornMs?: number
  /** The same signal again so soon is the same key press, heard on two ways, ms. */
  echoMs?: number
}

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const

/** Of variables that would make Electron run as something else than the window. */
const NOT_HANDED_ON = ['ELECTRON_RUN_AS_NODE', 'NODE_OPTIONS']

/** Starts the window and resolves when it has ended. */
export function runDesktop(
  {
    binary, args, environment, platform = process.platform, signals = process, say = console.log,
    stillbornMs = 15_000, echoMs = 500,
  }: Run,
): Promise<Ended> {
  const startedMs = performance.now()
  const env = Object.fromEntries(Object.entries(environment).filter(([name]) => !NOT_HANDED_ON.includes(name)))
  // In a process group of its own, so that Ctrl-C reaches it once, by us: at a second one it would end without asking.
  const child = spawn(binary, [...args], { stdio: 'inherit', env, detached: platform !== 'win32' })
  const relay = relaySignals(child, { platform, signals, say, echoMs })
  return new Promise((done) => {
    const end = (ended: Ended): void => {
      relay.stop()
      done(ended)
    }
    child.on('error', (error: NodeJS.ErrnoException) =>
      end({ kind: 'stillborn', why: `its program could not be run: ${error.code ?? error.message}` }))
    child.on('exit', (code, signal) => {
      if (code === 0 || relay.asked()) return end({ kind: 'closed' })
      const soon = performance.now() - startedMs < stillbornMs
      end({ kind: soon ? 'stillborn' : 'died', why: reason(code, signal, platform) })
    })
  })
}

/** Hands signals on, and knows whether one was. */
function relaySignals(
  child: ChildProcess,
  { platform, signals, say, echoMs }: Required<Pick<Run, 'platform' | 'signals' | 'say' | 'echoMs'>>,
): { asked: () => boolean; stop: () => void } {
  let asked = false
  let lastMs = -Infinity
  const hear = SIGNALS.map((signal) => [signal, () => {
    const sinceMs = performance.now() - lastMs
    if (sinceMs < echoMs) return
    lastMs = performance.now()
    // Windows has no signals: handing one on there ends the window at once, without its question.
    if (platform === 'win32' && !asked) say('Close the window to end Squatbench. Ctrl-C once more ends it without asking.')
    else child.kill(signal)
    asked = true
  }] as const)
  for (const [signal, listener] of hear) signals.on(signal, listener)
  return {
    asked: () => asked,
    stop: () => {
      for (const [signal, listener] of hear) signals.off(signal, listener)
    },
  }
}

/** Why it ended by itself, in a few words. */
function reason(code: number | null, signal: NodeJS.Signals | null, platform: NodeJS.Platform): string {
  if (signal === null) return `it ended with code ${code}`
  if (platform !== 'linux') return `it ended by ${signal}`
  const restriction = signal === 'SIGTRAP' || signal === 'SIGABRT' ? sandboxRestriction() : null
  if (restriction !== null) return `its sandbox can’t start here, because this system restricts user namespaces (${restriction})`
  if (signal === 'SIGTRAP') return 'it ended by SIGTRAP; most likely its sandbox can’t start here, the lines above say more'
  if (signal === 'SIGSEGV') return 'it ended by SIGSEGV; maybe there is no display at the one that is named'
  return `it ended by ${signal}`
}

/** Settings under which an unprivileged sandbox can't start, with the value that forbids it. */
const RESTRICTIONS: readonly (readonly [path: string, value: string])[] = [
  ['/proc/sys/kernel/apparmor_restrict_unprivileged_userns', '1'],
  ['/proc/sys/kernel/unprivileged_userns_clone', '0'],
  ['/proc/sys/user/max_user_namespaces', '0'],
]

/** The setting of this system that keeps Electron's sandbox from starting, or null where none is known. */
export function sandboxRestriction(read: (path: string) => string = (path) => readFileSync(path, 'utf8')): string | null {
  for (const [path, value] of RESTRICTIONS) {
    try {
      if (read(path).trim() === value) return `${path.slice('/proc/sys/'.length).replaceAll('/', '.')} = ${value}`
    } catch {
      // A system without this setting.
    }
  }
  return null
}
