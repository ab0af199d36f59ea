import { describe, expect, it } from 'vitest'
import type { ServiceTable } from '@electron/services/table'
import { createDispatch } from '@electron/services'
import { asServiceError, ServiceFailure } from '@electron/services/failure'

const table = (parts: Partial<ServiceTable>): ServiceTable => new Proxy(parts as ServiceTable, {
  get: (target, name) => Reflect.get(target, name) as unknown ?? (() => Promise.reject(new Error('not asked for'))),
})
const failing = (error: unknown) => createDispatch(table({ 'library.list': () => Promise.reject(error) }))
const system = (code: string) => Object.assign(new Error(`${code}: told by the system`), { code, path: '/library/x.json' })

describe('the door to the table', () => {
  it.each([undefined, null, 5, {}, [], 'nothing', '__proto__', 'constructor', 'toString', 'library.list '])(
    'refuses the name %j', async (name) => {
      expect(await failing(null)(name, {})).toMatchObject({ ok: false, error: { code: 'refused' } })
    },
  )

  it('names each field of an input that does not fit', async () => {
    const answer = await failing(null)('library.removeSession', { chassisId: 'A B', sessionId: 'a', more: 1 })
    expect(answer).toMatchObject({ ok: false, error: { code: 'badInput' } })
    expect(answer.ok ? [] : answer.error.problems).toEqual([
      { where: 'chassisId', what: 'use 1 to 64 lower-case letters, digits or hyphens', code: 'wrongForm' },
      { where: '(whole)', what: 'Unrecognized key: "more"', code: 'unknownKeys', limit: 'more' },
    ])
  })

  it('does not hand on an answer that does not fit', async () => {
    const wrong = createDispatch(table({ 'library.list': () => Promise.resolve({ chassis: 'x', unreadable: [] } as never) }))
    const answer = await wrong('library.list', {})
    expect(answer).toMatchObject({ ok: false, error: { code: 'failed', problems: [{ where: 'chassis' }] } })
  })

  it.each([
    ['ENOSPC', 'noSpace', 'the disk is full'],
    ['EDQUOT', 'noSpace', 'the disk is full'],
    ['EACCES', 'notWritable', 'does not allow it'],
    ['EROFS', 'notWritable', 'does not allow it'],
    ['EMFILE', 'failed', 'too many files'],
    ['EIO', 'failed', 'EIO'],
  ])('says what %s means and what to do', async (code, answerCode, words) => {
    const answer = await failing(system(code))('library.list', {})
    const error = answer.ok ? null : answer.error
    expect(error?.code).toBe(answerCode)
    expect(error?.message).toContain('Failed while listing the chassis')
    expect(error?.message).toContain(words)
    expect(error?.problems).toEqual([{ where: '/library/x.json', what: code }])
  })

  it.each([[null], [undefined], ['text'], [7], [{ code: 5 }], [new RangeError('Maximum call stack size exceeded')]])(
    'never throws, even for the thrown thing %j', async (thrown) => {
      expect(await failing(thrown)('library.list', {})).toMatchObject({ ok: false, error: { code: 'failed' } })
    },
  )

  it('keeps the words of a failure of ours', () => {
    const failure = new ServiceFailure('notFound', 'There is none.', [{ where: 'x', what: 'y' }])
    expect(asServiceError(failure, 'looking')).toEqual({
      code: 'notFound', message: 'There is none.', problems: [{ where: 'x', what: 'y' }],
    })
  })
})
