/** The few pages the host shows instead of the app: what is wrong and what to do, in both languages at once. */

const NOTICES = {
  noSession: {
    en: [
      'Not open yet',
      'Open the address with its token that Squatbench printed in its terminal. '
      + 'If you have just come from there, use the link below. '
      + 'What you typed here before and could not be saved is still kept by this browser, and is taken in then.',
    ],
    de: [
      'Noch nicht offen',
      'Öffne die Adresse mit ihrem Schlüssel, die Squatbench in seinem Terminal ausgegeben hat. '
      + 'Kommst du gerade von dort, nimm den Link unten. '
      + 'Was du hier zuvor getippt hast und nicht gesichert werden konnte, hält dieser Browser noch und übernimmt es dann.',
    ],
  },
  usedToken: {
    en: [
      'This address was used already',
      'Each start of Squatbench lets one browser in. Use that browser, or stop Squatbench in its terminal (Ctrl-C), '
      + 'start it again and open the new address.',
    ],
    de: [
      'Diese Adresse wurde schon benutzt',
      'Jeder Start von Squatbench lässt einen Browser ein. Nimm diesen Browser, oder beende Squatbench in seinem '
      + 'Terminal (Strg-C), starte es neu und öffne die neue Adresse.',
    ],
  },
  otherName: {
    en: ['Wrong name', 'Squatbench answers only at the address that it printed in its terminal.'],
    de: ['Falscher Name', 'Squatbench antwortet nur unter der Adresse, die es in seinem Terminal ausgegeben hat.'],
  },
  noAddress: {
    en: ['No such address', 'Open the address that Squatbench printed in its terminal.'],
    de: ['Diese Adresse gibt es nicht', 'Öffne die Adresse, die Squatbench in seinem Terminal ausgegeben hat.'],
  },
  noFile: {
    en: ['Nothing here', 'This address leads to no file of Squatbench.'],
    de: ['Hier ist nichts', 'Diese Adresse führt zu keiner Datei von Squatbench.'],
  },
  method: {
    en: ['Not possible here', 'Pages are read, not written to.'],
    de: ['Hier nicht möglich', 'Seiten werden gelesen, nicht beschrieben.'],
  },
  failed: {
    en: ['Something failed', 'The page could not be sent. Reload it; what was saved is safe.'],
    de: ['Etwas ging schief', 'Die Seite konnte nicht gesendet werden. Lade sie neu; was gesichert war, ist sicher.'],
  },
} as const

/** The page of one notice; its words are fixed, so nothing of a request comes back in it. */
export function noticePage(about: keyof typeof NOTICES): string {
  const { en: [title, text], de: [titel, wortlaut] } = NOTICES[about]
  return `<!doctype html><html lang="en"><meta charset="utf-8"><title>Squatbench: ${title}</title>`
    + `<h1>${title}</h1><p>${text}</p><div lang="de"><h2>${titel}</h2><p>${wortlaut}</p></div>`
    + '<p><a href="/">Squatbench</a></p></html>\n'
}
