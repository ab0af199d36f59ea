import { describe, expect, it } from 'vitest'
import { cssString, html } from '@core/report/html'

describe('templates', () => {
  it('escape every text and leave only markup made here', () => {
    const hostile = '<img src=x onerror="a()">&\'\u0000\u0007'
    expect(html`<p title="${hostile}">${hostile}${html`<b>${1}</b>`}</p>`.markup).toBe(
      '<p title="&lt;img src=x onerror=&quot;a()&quot;&gt;&amp;&#39;\ufffd\ufffd">'
      + '&lt;img src=x onerror=&quot;a()&quot;&gt;&amp;&#39;\ufffd\ufffd<b>1</b></p>')
  })

  it('write lists one after another and nothing for nothing', () => {
    expect(html`${['a', html`<i></i>`]}${null}${undefined}${false}${''}${0}`.markup).toBe('a<i></i>0')
  })

  it('keep a text inside its CSS string', () => {
    expect(cssString('a"; } </style>\n\\')).toBe('"a\\22 ; \\7d  \\3c /style\\3e \\a \\5c "')
  })
})
