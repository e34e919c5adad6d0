import type { CertificateKey } from '../../server/context/certificate-key.ts'

/** RFC 8037, appendix A.1: a key that everybody knows. */
export const PUBLISHED_KEY: CertificateKey = {
  x: '11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo',
  d: 'nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A',
}
