/** Loaded before the app by the tests: writes down every connection and look-up off the loopback interface. */
import dns from 'node:dns'
import { appendFileSync } from 'node:fs'
import net from 'node:net'

const log = process.env['SQUATBENCH_REACH_LOG']
const isLoopback = (host: string): boolean => host === 'localhost' || host === '::1' || host.startsWith('127.')

function note(kind: string, host: string): void {
  if (log !== undefined && !isLoopback(host)) appendFileSync(log, `${kind} ${host}\n`)
}

const connect = net.Socket.prototype.connect
net.Socket.prototype.connect = function watched(this: net.Socket, ...args: unknown[]): net.Socket {
  const first = (Array.isArray(args[0]) ? args[0][0] : args[0]) as { host?: string; path?: string } | undefined
  if (typeof first === 'object' && first.path === undefined) note('connect', first.host ?? 'localhost')
  return Reflect.apply(connect, this, args) as net.Socket
}

const lookup = dns.lookup
dns.lookup = Object.assign((host: string, ...rest: unknown[]) => {
  note('lookup', host)
  return Reflect.apply(lookup, dns, [host, ...rest]) as void
}, lookup) as typeof dns.lookup
