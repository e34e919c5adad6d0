/** Puts the focus on the first match within the page once the change that calls for it is drawn. */
export const focusSoon = (selector: string): void => {
  requestAnimationFrame(() => document.querySelector<HTMLElement>(`#main ${selector}`)?.focus())
}
