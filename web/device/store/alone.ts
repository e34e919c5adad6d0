/** Runs work unless another window of this device is at it; where the browser cannot tell, it runs. */
export const alone = async (name: string, work: () => Promise<void>): Promise<void> => {
  if (!navigator.locks) return work()
  await navigator.locks.request(name, { ifAvailable: true }, async (lock) => {
    if (lock) await work()
  })
}
