import type { Page } from 'playwright-core'

/**
 * What stands on a page in a right-to-left script without being isolated, so that it may move figures beside it: pieces of
 * text, titles and labels. Whatever stands in a field is left out, for a field is a line of its own.
 */
export const bareNames = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const script = /[\p{Script=Hebrew}\p{Script=Arabic}]/u
    const isBare = (text: string) => script.test(text.replace(/\u2068[^\u2069]*\u2069/g, ''))
    const found: string[] = []
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT)
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      if (node instanceof Text) {
        const field = node.parentElement?.closest('textarea, script, style')
        if (!field && isBare(node.data)) found.push(`${node.parentElement?.tagName}: ${node.data.trim()}`)
      } else if (node instanceof Element) {
        for (const name of ['title', 'aria-label', 'alt', 'placeholder']) {
          const text = node.getAttribute(name)
          if (text && isBare(text)) found.push(`${node.tagName} ${name}: ${text}`)
        }
      }
    }
    if (isBare(document.title)) found.push(`title: ${document.title}`)
    return found
  })
