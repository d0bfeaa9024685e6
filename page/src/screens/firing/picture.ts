// The firing picture taken into the page: read as XML, with nothing left in it but the shapes, words and classes a picture is made of.

const SVG = "http://www.w3.org/2000/svg";
const ELEMENTS: ReadonlySet<string> = new Set(["svg", "title", "desc", "g", "path", "line", "rect", "circle", "text", "tspan", "clipPath"]);
const ATTRIBUTES: ReadonlySet<string> = new Set([
  "class", "id", "role", "aria-labelledby", "viewBox", "width", "height", "x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "d", "text-anchor", "xml:space", "xmlns",
  "clip-path", "data-moment", "data-what", "data-piece", "data-at-s",
]);
const OWN_CLIP = /^url\(#[a-z-]+\)$/;

function isKnown(attribute: Attr): boolean {
  return ATTRIBUTES.has(attribute.name) && (attribute.name !== "clip-path" || OWN_CLIP.test(attribute.value));
}

function cleaned(element: Element): void {
  for (let i = element.attributes.length - 1; i >= 0; i -= 1) {
    const attribute = element.attributes[i];
    if (attribute && !isKnown(attribute)) element.removeAttributeNode(attribute);
  }
  for (let child = element.firstChild; child; ) {
    const next: ChildNode | null = child.nextSibling;
    if (child.nodeType === Node.ELEMENT_NODE) {
      const inside = child as Element;
      if (inside.namespaceURI === SVG && ELEMENTS.has(inside.localName)) cleaned(inside);
      else child.remove();
    } else if (child.nodeType !== Node.TEXT_NODE) child.remove();
    child = next;
  }
}

/** The picture as an element of this page, or null for a text that is no picture. */
export function pictureFrom(text: string): SVGSVGElement | null {
  const root = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  if (root.namespaceURI !== SVG || root.localName !== "svg") return null;
  cleaned(root);
  return document.adoptNode(root) as unknown as SVGSVGElement;
}
