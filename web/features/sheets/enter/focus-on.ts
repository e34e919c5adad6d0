/** Puts the focus on the first match within the page. */
export const focusOn = (selector: string): void => document.querySelector<HTMLElement>(`#main ${selector}`)?.focus()

/** The same once the change that calls for it is drawn. */
export const focusSoon = (selector: string): void => {
  requestAnimationFrame(() => focusOn(selector))
}
