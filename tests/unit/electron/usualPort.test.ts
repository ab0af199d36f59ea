/** Each start has the same address where it can, so that a browser finds again what it kept. */
import { createServer } from 'node:net'
import type { AddressInfo, Server } from 'node:net'
import { afterEach, expect, it } from 'vitest'
import { startAtUsualPort, USUAL_PORT } from '@electron/host'
import type { Host } from '@electron/host'

const OPTIONS = { dispatch: () => Promise.reject(new Error('not asked here')), pageFolder: '.' }
const hosts: Host[] = []
const holders: Server[] = []

afterEach(async () => {
  await Promise.all(hosts.splice(0).map((each) => each.close()))
  await Promise.all(holders.splice(0).map((each) => new Promise((done) => each.close(done))))
})

const portOf = (host: Host): number => Number(new URL(host.origin).port)
async function start(port: number): Promise<{ host: Host; usual: boolean }> {
  const started = await startAtUsualPort(OPTIONS, port)
  hosts.push(started.host)
  return started
}
/** A port that another program holds. */
async function heldPort(): Promise<number> {
  const holder = createServer()
  holders.push(holder)
  await new Promise<void>((done) => { holder.listen(0, '127.0.0.1', done) })
  return (holder.address() as AddressInfo).port
}

it('comes back at the same address', async () => {
  const port = await heldPort()
  await new Promise((done) => holders.pop()!.close(done))
  const first = await start(port)
  expect([first.usual, portOf(first.host)]).toEqual([true, port])
  await hosts.pop()!.close()
  const second = await start(port)
  expect([second.usual, second.host.origin]).toEqual([true, first.host.origin])
})

it('takes another port where the usual one is held, and tells so', async () => {
  const port = await heldPort()
  const { host, usual } = await start(port)
  expect(usual).toBe(false)
  expect(portOf(host)).not.toBe(port)
})

it('is a port that no system hands out by itself and no browser refuses', () => {
  // IANA: registered ports end at 49151; Linux hands out from 32768 (ip-sysctl, ip_local_port_range).
  expect(USUAL_PORT).toBeGreaterThan(10_080)
  expect(USUAL_PORT).toBeLessThan(32_768)
})
