/* What the app's worker does with notifications: shows them, and opens the page they name. They say that there is news and
   where it is, and nothing of it. */

const FALLBACK = {
  title: 'Reviewstand',
  body: 'There is news. Open Reviewstand to see it.',
  path: '/notices',
  kind: 'news',
}

const contentOf = (data) => {
  try {
    return { ...FALLBACK, ...data.json() }
  } catch {
    return FALLBACK
  }
}

/** An address of this very app, whatever was sent. */
const addressOf = (path) => {
  const url = new URL(String(path), self.location.origin)
  return url.origin === self.location.origin ? url.href : new URL(FALLBACK.path, self.location.origin).href
}

self.addEventListener('push', (event) => {
  const { title, body, path, kind } = contentOf(event.data)
  const icons = { icon: '/icons/icon-192.png', badge: '/icons/icon-192.png' }
  event.waitUntil(self.registration.showNotification(title, { body, tag: kind, data: { path }, ...icons }))
})

/** Opens the page in a window that is there, unless a sheet is written in it; else in a new one. */
const open = async (href) => {
  const windows = await self.clients.matchAll({ type: 'window', includeUncontrolled: true })
  const free = windows.find(({ url }) => !new URL(url).pathname.startsWith('/grade/'))
  if (!free) return self.clients.openWindow(href)
  await free.focus()
  return free.navigate(href).catch(() => self.clients.openWindow(href))
}

self.addEventListener('notificationclick', (event) => {
  event.notification.close()
  event.waitUntil(open(addressOf(event.notification.data?.path ?? FALLBACK.path)))
})
