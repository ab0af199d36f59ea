/** How strict the stand-in is: unknown members, unknown events, unknown options, what crosses a bridge. */
import { EventEmitter } from 'node:events'
import { types } from 'node:util'
import { eventsOf, membersOf } from './typings'

const wrapped = new WeakMap<object, object>()
const bare = new WeakMap<object, object>()
const kinds = new WeakMap<object, string>()

/** The name of the class or interface in Electron's typings that an object stands in for. */
export const standsFor = (target: object, kind: string): void => void kinds.set(target, kind)

/** The stand-in behind what the program was given. */
export const bareOf = <T extends object>(given: T): T => (bare.get(given) as T | undefined) ?? given

/**
 * What the program is given of a stand-in: members that Electron's typings know and the stand-in has. Anything
 * else throws, read or written. Methods run on the stand-in itself.
 */
export function strict<T extends object>(target: T, kind = kinds.get(target)): T {
  if (kind === undefined) return target
  const known = wrapped.get(target)
  if (known !== undefined) return known as T
  const refuse = (key: string): never => {
    throw new Error(`${kind}.${key} is not in Electron’s typings, or the stand-in does not know it`)
  }
  const emitter = target instanceof EventEmitter
  const allowed = (key: string): boolean =>
    key in target && (membersOf(kind).has(key) || (emitter && key in EventEmitter.prototype))
  const proxy = new Proxy(target, {
    get(_target, key) {
      if (typeof key === 'symbol' || key === 'then') return undefined
      if (!allowed(key)) return refuse(key)
      const value: unknown = Reflect.get(target, key, target)
      if (typeof value !== 'function') return given(value)
      return (...args: unknown[]): unknown => given(Reflect.apply(value, target, args.map(taken)))
    },
    set(_target, key, value) {
      if (typeof key === 'symbol' || !allowed(key)) return refuse(String(key))
      return Reflect.set(target, key, value, target)
    },
  })
  wrapped.set(target, proxy)
  bare.set(proxy, target)
  return proxy
}

/** A value on its way to the program. */
const given = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(given)
  return typeof value === 'object' && value !== null ? strict(value) : value
}

/** A value on its way from the program; its functions hear what they are told as the program would. */
function taken(value: unknown): unknown {
  if (typeof value === 'function') return (...args: unknown[]): unknown => Reflect.apply(value, undefined, args.map(given))
  return typeof value === 'object' && value !== null ? bareOf(value) : value
}

/** An emitter that knows the events of a class, and no other. */
export class StrictEmitter extends EventEmitter {
  constructor(readonly emits: string) {
    super()
    standsFor(this, emits)
  }

  override on(event: string, listener: (...args: unknown[]) => void): this {
    if (!eventsOf(this.emits).has(event)) throw new Error(`${this.emits} emits no “${event}”`)
    return super.on(event, listener)
  }
}

/** Refuses options that an interface of the typings (or one of several) does not have. */
export function onlyOptions(options: object, ...interfaces: string[]): void {
  for (const key of Object.keys(options)) {
    if (!interfaces.some((name) => membersOf(name).has(key))) throw new Error(`${interfaces[0]} has no “${key}”`)
  }
}

/** A value as it comes through the context bridge: a copy, functions with copied arguments and results. */
export function throughBridge(value: unknown): unknown {
  if (types.isProxy(value)) throw new Error('An object could not be cloned.')
  if (typeof value === 'function') {
    return (...args: unknown[]): unknown => throughBridge(Reflect.apply(value, undefined, args.map(throughBridge)))
  }
  if (value instanceof Promise) return value.then(throughBridge)
  if (Array.isArray(value)) return value.map(throughBridge)
  if (typeof value === 'object' && value !== null && Object.getPrototypeOf(Object.getPrototypeOf(value) ?? null) === null) {
    return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, throughBridge(each)]))
  }
  return structuredClone(value)
}
