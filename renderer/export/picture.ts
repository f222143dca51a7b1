/** Px of a picture to one of the sheet. */
const SCALE = 2
/** What a canvas can be, px a side. */
const MOST = 16_000

/** A standalone SVG as PNG, twice its size; smaller where a canvas cannot be that large. */
export async function pictureOf(svg: string): Promise<Blob> {
  const url = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }))
  try {
    const image = new Image()
    image.src = url
    await image.decode()
    const scale = Math.min(SCALE, MOST / Math.max(image.naturalWidth, image.naturalHeight))
    const canvas = document.createElement('canvas')
    canvas.width = Math.ceil(image.naturalWidth * scale)
    canvas.height = Math.ceil(image.naturalHeight * scale)
    const pen = canvas.getContext('2d')
    if (!pen) throw new Error('this browser gives no canvas. Export the SVG instead.')
    pen.drawImage(image, 0, 0, canvas.width, canvas.height)
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'))
    if (!blob) throw new Error('the picture is too large. Export the SVG instead.')
    return blob
  } finally {
    URL.revokeObjectURL(url)
  }
}
