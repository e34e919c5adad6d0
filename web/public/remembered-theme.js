// Runs before the first paint, so that a chosen theme does not flash in the other one.
try {
  const theme = localStorage.getItem('reviewstand.theme')
  if (theme === 'light' || theme === 'dark' || theme === 'sun') document.documentElement.dataset.theme = theme
} catch {
  // No storage allowed: the theme follows the system.
}
