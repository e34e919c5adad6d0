export default function PairsPage() {
  return null
}
