/**
 * The report's margins and foot: a shadow tree can't set the page, so its page rules are handed to
 * the window for as long as the report is in view.
 */
import { onBeforeUnmount } from 'vue'

export function usePageRules(): (sheet: CSSStyleSheet) => void {
  const page = new CSSStyleSheet()
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, page]
  onBeforeUnmount(() => { document.adoptedStyleSheets = document.adoptedStyleSheets.filter((each) => each !== page) })
  return (sheet) => {
    page.replaceSync([...sheet.cssRules].filter((rule) => rule instanceof CSSPageRule).map(({ cssText }) => cssText).join('\n'))
  }
}
