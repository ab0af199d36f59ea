/** What the packager is told, and what is made of its errors. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { builderConfig } from '@electron/tools/builderConfig'
import { fetchProblem } from '@electron/tools/fetchProblem'

const manifest = JSON.parse(readFileSync(new URL('../../../package.json', import.meta.url), 'utf8')) as Record<string, unknown>

describe('the packaged program', () => {
  it('is signed by nobody in particular on macOS, unless there is a certificate', () => {
    // @electron/fuses, README "Apple Silicon"; electron-builder, documentation of code signing.
    expect(builderConfig({}).mac?.identity).toBe('-')
    expect(builderConfig({ CSC_LINK: '', CSC_NAME: '' }).mac?.identity).toBe('-')
    expect(builderConfig({ CSC_LINK: 'some.p12' }).mac).not.toHaveProperty('identity')
    expect(builderConfig({ CSC_NAME: 'Somebody' }).mac).not.toHaveProperty('identity')
    expect(builderConfig({}).electronFuses?.resetAdHocDarwinSignature).toBe(true)
  })

  it('has a name, an author with an address, a home and a desktop entry, which installers demand', () => {
    expect(manifest).toMatchObject({
      productName: 'Squatbench',
      desktopName: 'squatbench.desktop',
      homepage: expect.stringMatching(/^https:\/\//),
      author: expect.stringMatching(/^.+ <.+@.+>$/),
    })
    expect(builderConfig().linux?.syncDesktopName).toBe(true)
    expect(builderConfig().productName).toBe(manifest['productName'])
  })
})

describe('an error of the packager', () => {
  const coded = (code: string, message = `something, ${code}`) => Object.assign(new Error(message), { code })

  it.each([
    coded('ENOTFOUND', 'getaddrinfo ENOTFOUND github.com'),
    coded('ECONNREFUSED'), coded('ETIMEDOUT'), coded('SELF_SIGNED_CERT_IN_CHAIN'), coded('UNABLE_TO_GET_ISSUER_CERT_LOCALLY'),
    new TypeError('fetch failed', { cause: coded('ENOTFOUND') }),
    new Error('Response code 404 (Not Found) for https://some.where/electron.zip'),
    new Error('cannot resolve tool', { cause: new Error('socket hang up') }),
    new Error('getaddrinfo EAI_AGAIN github.com'),
  ])('of the network is told as such: %s', (error) => {
    expect(fetchProblem(error)).not.toBeNull()
  })

  it.each([
    new Error('Please specify project homepage, see https://www.electron.build/configuration#metadata'),
    coded('ENOENT', 'ENOENT: no such file or directory, open dist/linux-unpacked/resources/app.asar'),
    coded('ENOSPC'), new Error('icon is too small'), 'no error at all', undefined,
  ])('of another kind is not taken for one of the network: %s', (error) => {
    expect(fetchProblem(error)).toBeNull()
  })
})
