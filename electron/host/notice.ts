/** The few pages the host shows instead of the app: what is wrong and what to do. */

const NOTICES = {
  noSession: [
    'Not open yet',
    'Open the address with its token that Squatbench printed in its terminal. '
    + 'If you have just come from there, use the link below. '
    + 'What you typed here before and could not be written down is still kept by this browser, and is taken in then.',
  ],
  usedToken: [
    'This address was used already',
    'Each start of Squatbench lets one browser in. Use that browser, or stop Squatbench in its terminal (Ctrl-C), '
    + 'start it again and open the new address.',
  ],
  otherName: ['Wrong name', 'Squatbench answers only at the address that it printed in its terminal.'],
  noAddress: ['No such address', 'Open the address that Squatbench printed in its terminal.'],
  noFile: ['Nothing here', 'This address leads to no file of Squatbench.'],
  method: ['Not possible here', 'Pages are read, not written to.'],
  failed: ['Something failed', 'The page could not be sent. Reload it; what was saved is safe.'],
} as const

/** The page of one notice; its words are fixed, so nothing of a request comes back in it. */
export function noticePage(about: keyof typeof NOTICES): string {
  const [title, text] = NOTICES[about]
  return `<!doctype html><html lang="en"><meta charset="utf-8"><title>Squatbench: ${title}</title>`
    + `<h1>${title}</h1><p>${text}</p><p><a href="/">Squatbench</a></p></html>\n`
}
