// Where the page is: the path of the address bar, as a signal; links inside the page change it without loading anew.
import { computed, signal } from "@preact/signals";

const address = signal(typeof location === "undefined" ? "/" : location.pathname + location.search);

export const segments = computed(() =>
  (address.value.split("?")[0] ?? "/")
    .split("/")
    .filter((part) => part !== "")
    .map((part) => {
      try {
        return decodeURIComponent(part);
      } catch {
        return part;
      }
    }),
);

export const asked = computed(() => new URLSearchParams(address.value.split("?")[1] ?? ""));

/** Every change of place, counted: the shell moves the focus to the new heading. */
export const arrivals = signal(0);

export function go(path: string, replace = false): void {
  if (path === address.peek()) return;
  if (replace) history.replaceState(null, "", path);
  else history.pushState(null, "", path);
  address.value = path;
  arrivals.value += 1;
  scrollTo(0, 0);
}

/** Changes what is asked after the "?" of the present screen, without moving focus or filling the history. */
export function ask(values: Readonly<Record<string, string>>): void {
  const given = new URLSearchParams(Object.entries(values).filter(([, value]) => value !== ""));
  const text = given.toString();
  const path = (address.peek().split("?")[0] ?? "/") + (text ? `?${text}` : "");
  history.replaceState(null, "", path);
  address.value = path;
}

function ownLink(event: MouseEvent): HTMLAnchorElement | null {
  if (event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return null;
  const link = event.target instanceof Element ? event.target.closest("a") : null;
  if (!link || link.target || link.hasAttribute("download") || link.origin !== location.origin) return null;
  return link.pathname.startsWith("/api/") || link.pathname.startsWith("/sign-in") || link.hash ? null : link;
}

export function beginNavigation(): void {
  addEventListener("popstate", () => {
    address.value = location.pathname + location.search;
    arrivals.value += 1;
  });
  document.addEventListener("click", (event) => {
    const link = ownLink(event);
    if (!link) return;
    event.preventDefault();
    go(link.pathname + link.search);
  });
}
