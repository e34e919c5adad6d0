/** What was typed on a page, kept over one reload of it in this window and nowhere else. */
const KEY = 'reviewstand.typed'

interface Typed {
  address: string
  fields: { name: string; value: string }[]
}

type TextElement = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement

const here = (): string => location.pathname + location.search

const isSecret = ({ type }: TextElement): boolean => ['password', 'file', 'hidden', 'submit', 'button'].includes(type)

/** Fields of the page by label and place among those of the same label, for their ids differ from one load to the next. */
function fieldsOf(root: ParentNode): Map<string, TextElement> {
  const named = new Map<string, TextElement>()
  const counts = new Map<string, number>()
  for (const field of root.querySelectorAll<TextElement>(
    '#main :is(input, textarea, select), dialog :is(input, textarea, select)',
  )) {
    if (isSecret(field)) continue
    const label = field.labels?.[0]?.textContent.trim() || field.getAttribute('aria-label') || field.name
    const place = counts.get(label) ?? 0
    counts.set(label, place + 1)
    named.set(`${label} ${place}`, field)
  }
  return named
}

const isSwitch = (field: TextElement): field is HTMLInputElement =>
  field instanceof HTMLInputElement && (field.type === 'checkbox' || field.type === 'radio')

const shownIn = (field: TextElement): string => (isSwitch(field) ? String(field.checked) : field.value)

/** Keeps what is typed on this page for the reload that follows. A page without fields leaves what is kept as it is. */
export function keepTyped(): void {
  const fields = [...fieldsOf(document)].map(([name, field]) => ({ name, value: shownIn(field) }))
  if (fields.length === 0) return
  try {
    sessionStorage.setItem(KEY, JSON.stringify({ address: here(), fields } satisfies Typed))
  } catch {
    // Without storage there is nothing to keep it in.
  }
}

function takeKept(): Typed | null {
  try {
    const kept = sessionStorage.getItem(KEY)
    sessionStorage.removeItem(KEY)
    const typed = kept === null ? null : (JSON.parse(kept) as Typed)
    return typed?.address === here() ? typed : null
  } catch {
    return null
  }
}

/** As if somebody typed it: React hears of a value only through the element's own setter and an event. */
function type(field: TextElement, value: string): void {
  if (isSwitch(field)) {
    if (String(field.checked) !== value) field.click()
    return
  }
  const own = Object.getOwnPropertyDescriptor(Object.getPrototypeOf(field), 'value')
  own?.set?.call(field, value)
  field.dispatchEvent(new Event(field instanceof HTMLSelectElement ? 'change' : 'input', { bubbles: true }))
}

/** Puts back what was kept, field by field as the page draws them; those of a form that is closed once it is opened again. */
export function putBackTyped(): void {
  const kept = takeKept()
  if (!kept) return
  const left = new Map(kept.fields.map(({ name, value }) => [name, value]))
  const putBack = () => {
    if (document.querySelector('#main')?.getAttribute('aria-busy') === 'true') return
    for (const [name, field] of fieldsOf(document)) {
      const value = left.get(name)
      if (value === undefined) continue
      left.delete(name)
      if (shownIn(field) !== value) type(field, value)
    }
    if (left.size === 0 || here() !== kept.address) observer.disconnect()
  }
  const observer = new MutationObserver(putBack)
  observer.observe(document.body, { childList: true, subtree: true, attributes: true, attributeFilter: ['aria-busy'] })
  putBack()
}
