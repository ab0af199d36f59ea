/**
 * `npm run dev`: the window from its sources in a browser, anew after each change of them, over the host's transport.
 * It answers on this machine only and keeps its cars in a library of its own, away from the builder's.
 */
import { randomUUID } from 'node:crypto'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import vue from '@vitejs/plugin-vue'
import { createServer } from 'vite'
import type { Connect } from 'vite'
import { SERVICE_PATH } from '@core/services'
import { alias } from '../../electron.vite.config'
import { bodyLimit, readBody } from '../host/body'
import { createDispatch, createTable, ProfileLibrary } from '../services'
import type { Dispatch } from '../services'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const LIBRARY = join(ROOT, 'node_modules', '.cache', 'dev-library')
const PORT = 5173

/** The service table behind the page, for the page only: another site's page sends another origin. */
const services = (dispatch: Dispatch): Connect.NextHandleFunction => (request, response, next) => {
  const { origin, host } = request.headers
  if (request.method !== 'POST' || !request.url?.startsWith(SERVICE_PATH) || origin !== `http://${host ?? ''}`) return next()
  const name = request.url.slice(SERVICE_PATH.length)
  void readBody(request, bodyLimit(name)).then(async (body) => {
    response.statusCode = body.kind === 'json' ? 200 : 400
    response.setHeader('content-type', 'application/json; charset=utf-8')
    response.end(body.kind === 'json' ? JSON.stringify(await dispatch(name, body.value)) : '')
  })
}

const library = new ProfileLibrary({ folder: process.argv[2] ?? LIBRARY, newId: randomUUID })
const dispatch = createDispatch(createTable({ library, version: 'dev', transport: 'host', printPdf: null, saveTables: null }))
const server = await createServer({
  configFile: false,
  root: join(ROOT, 'renderer'),
  cacheDir: join(ROOT, 'node_modules', '.cache', 'vite-dev'),
  resolve: { alias },
  plugins: [vue(), { name: 'services', configureServer: (own) => { own.middlewares.use(services(dispatch)) } }],
  worker: { format: 'es' },
  server: { host: '127.0.0.1', port: PORT, strictPort: true, fs: { allow: [ROOT] } },
})
await server.listen()
console.log(`Squatbench, from its sources, is at http://127.0.0.1:${server.config.server.port}/\nCtrl-C ends it.`)
