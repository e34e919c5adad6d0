/** Hands the reader a file to keep. */
export const saveFile = (name: string, content: Blob): void => {
  const url = URL.createObjectURL(content)
  const link = document.createElement('a')
  link.href = url
  link.download = name
  link.click()
  // The browser has taken what it needs by then.
  setTimeout(() => URL.revokeObjectURL(url), 60_000)
}
