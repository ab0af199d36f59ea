/** A proxy that lets nothing through and remembers who asked for what. */
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'

export interface RecordingProxy { server: string; asked: string[]; close(): Promise<void> }

/** Starts it on the loopback address. */
export async function recordingProxy(): Promise<RecordingProxy> {
  const asked: string[] = []
  const server = createServer((request, response) => {
    asked.push(request.url ?? '')
    response.writeHead(403).end()
  })
  server.on('connect', (request, socket) => {
    asked.push(request.url ?? '')
    socket.end('HTTP/1.1 403 Forbidden\r\n\r\n')
  })
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
  return {
    server: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    asked,
    close: () => new Promise((done) => {
      server.close(() => done())
      server.closeAllConnections()
    }),
  }
}
