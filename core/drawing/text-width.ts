/** The weights that drawings are lettered in. */
export type Weight = 400 | 600 | 700 | 800

/**
 * Advance widths of Atkinson Hyperlegible Next, thousandths of an em: U+0020 to U+007E, then U+00A0 to U+00FF.
 * Measured once with a browser canvas at 1000 px, kerning off, from the font files the app ships.
 */
const advances: Readonly<Record<Weight, readonly number[]>> = {
  400: table(
    '280 286 301 651 592 919 731 160 299 299 485 606 210 362 210 387 648 407 548 576 614 588 598 510 615 595 210 210 ' +
      '553 628 553 480 778 626 613 645 669 569 552 694 694 392 512 631 541 824 693 714 592 724 614 592 558 690 593 856 ' +
      '623 575 607 317 387 344 552 372 243 525 566 485 564 538 314 558 550 252 245 492 262 845 550 548 566 574 349 471 ' +
      '326 540 461 684 481 449 460 344 237 344 555 280 286 485 610 580 575 237 528 368 798 371 562 602 0 798 356 352 ' +
      '579 382 383 243 576 509 240 265 256 380 562 816 820 867 450 626 626 626 626 626 626 891 645 569 569 569 569 392 ' +
      '392 392 392 689 693 714 714 714 714 714 532 714 690 690 690 690 575 592 582 525 525 525 525 525 525 866 485 538 ' +
      '538 538 538 252 252 252 266 565 550 548 548 548 548 548 606 548 540 540 540 540 449 566 449',
  ),
  600: table(
    '303 298 362 730 604 953 727 195 324 324 485 598 252 369 253 424 656 430 569 592 621 602 617 529 621 578 253 253 ' +
      '564 617 564 526 780 662 634 654 683 589 562 711 699 415 546 654 548 848 710 737 617 747 639 604 592 687 628 877 ' +
      '666 627 615 333 424 344 573 391 274 544 587 502 586 555 349 582 565 285 255 536 301 870 565 567 587 591 368 497 ' +
      '360 559 509 723 522 499 492 370 249 370 543 303 298 502 627 589 627 249 547 412 798 385 622 611 0 798 375 381 ' +
      '601 396 400 274 576 517 277 288 276 396 622 837 843 904 503 662 662 662 662 662 662 943 654 589 589 589 589 415 ' +
      '415 415 415 703 710 737 737 737 737 737 535 737 687 687 687 687 627 617 609 544 544 544 544 544 544 874 502 555 ' +
      '555 555 555 285 285 285 299 581 565 567 567 567 567 567 598 567 559 559 559 559 499 587 499',
  ),
  700: table(
    '312 303 390 765 610 969 725 210 335 335 485 595 271 373 272 440 659 440 579 600 624 607 626 537 624 571 272 272 ' +
      '569 612 569 547 781 678 643 658 688 597 566 718 701 424 561 663 552 858 717 746 629 756 650 610 607 686 644 886 ' +
      '685 650 618 340 440 344 582 400 288 552 596 510 596 563 365 593 571 300 259 555 318 882 571 576 596 599 376 508 ' +
      '376 567 530 740 539 521 505 381 254 381 537 312 303 510 634 593 650 254 555 432 798 390 649 615 0 798 383 394 ' +
      '611 402 407 288 576 521 294 297 284 403 649 846 852 921 526 678 678 678 678 678 678 966 658 597 597 597 597 424 ' +
      '424 424 424 708 717 746 746 746 746 746 536 746 686 686 686 686 650 629 621 552 552 552 552 552 552 878 510 563 ' +
      '563 563 563 300 300 300 314 588 571 576 576 576 576 576 595 576 567 567 567 567 521 596 521',
  ),
  800: table(
    '330 315 430 820 618 993 726 234 351 351 486 595 299 377 300 464 664 456 593 611 628 617 638 549 627 560 300 300 ' +
      '577 611 577 577 784 702 659 665 700 613 574 731 709 434 585 681 558 878 733 756 647 766 668 618 628 688 669 901 ' +
      '713 684 624 352 464 352 596 412 310 561 613 523 612 576 389 610 585 326 266 587 347 899 585 590 613 612 406 526 ' +
      '398 580 562 766 566 555 527 400 266 400 529 330 315 523 648 599 684 245 568 462 798 400 689 621 0 798 395 414 ' +
      '625 412 419 310 576 527 318 313 298 414 689 856 872 940 562 702 702 702 702 702 702 1001 665 613 613 613 613 434 ' +
      '434 434 434 720 733 756 756 756 756 756 543 756 688 688 688 688 684 647 640 561 561 561 561 561 561 883 523 576 ' +
      '576 576 576 326 326 326 340 599 585 590 590 590 590 590 595 590 580 580 580 580 555 613 555',
  ),
}

function table(text: string): readonly number[] {
  return text.split(' ').map(Number)
}

/** Signs the face lacks come from a fallback; these are the widest of the usual ones, so room is never short. */
const signs: ReadonlyMap<string, number> = new Map([
  ['Ω', 830],
  ['→', 1000],
  ['←', 1000],
  ['θ', 600],
  ['−', 610],
  ['≥', 610],
  ['≤', 610],
  ['≈', 610],
  ['…', 830],
  ['–', 510],
  ['—', 840],
  ['’', 290],
])
const unknown = 1000

/** Width of a line of text in px at `size` px. Kerning is left out: it only ever makes text narrower than this. */
export function textWidth(text: string, size: number, weight: Weight = 400): number {
  const face = advances[weight]
  let sum = 0
  for (const sign of text) {
    const code = sign.codePointAt(0) ?? 0
    const at = code >= 0x20 && code <= 0x7e ? code - 0x20 : code >= 0xa0 && code <= 0xff ? code - 0xa0 + 95 : -1
    sum += (at < 0 ? signs.get(sign) : face[at]) ?? unknown
  }
  return (sum * size) / 1000
}

/** `text` cut to `room` px with an ellipsis; as it is where it fits. */
export function fitText(text: string, room: number, size: number, weight: Weight = 400): string {
  if (textWidth(text, size, weight) <= room) return text
  const letters = [...text]
  while (letters.length > 1 && textWidth(`${letters.join('').trimEnd()}…`, size, weight) > room) letters.pop()
  return `${letters.join('').trimEnd()}…`
}

/** `text` on one line if it fits in `room` px, else on two lines broken at the space that makes them most alike. */
export function breakText(text: string, room: number, size: number, weight: Weight = 400): readonly string[] {
  if (textWidth(text, size, weight) <= room) return [text]
  const words = text.split(' ')
  let best: readonly string[] = [text]
  let least = textWidth(text, size, weight)
  for (let i = 1; i < words.length; i++) {
    const lines = [words.slice(0, i).join(' '), words.slice(i).join(' ')]
    const width = Math.max(...lines.map((line) => textWidth(line, size, weight)))
    if (width < least) {
      least = width
      best = lines
    }
  }
  return best
}
