// A long work of the server, listened to: how far it is, its result, the way to stop it.
import { useEffect, useRef, useState } from "preact/hooks";
import { jobs } from "../api/client";
import { t } from "../words";

export interface Progress {
  done: number;
  /** 0 as long as nobody knows how much it is. */
  all: number;
}

export type JobNow<T> =
  | { is: "resting" }
  | { is: "running"; progress: Progress }
  | { is: "done"; result: T }
  | { is: "failed"; sentence: string }
  | { is: "cancelled" };

export interface Job<T> {
  now: JobNow<T>;
  begin: () => void;
  cancel: () => void;
}

const UNKNOWN: Progress = { done: 0, all: 0 };

interface Failure {
  sentence?: string;
}

function read<T>(event: Event): T | null {
  try {
    return JSON.parse((event as MessageEvent<string>).data) as T;
  } catch {
    return null;
  }
}

/** One work at a time; leaving the screen stops listening, not the work. */
export function useJob<T>(work: Parameters<typeof jobs.begin>[0]): Job<T> {
  const [now, set] = useState<JobNow<T>>({ is: "resting" });
  const source = useRef<EventSource | null>(null);
  const id = useRef<string | null>(null);
  const end = (next: JobNow<T>) => {
    source.current?.close();
    source.current = null;
    id.current = null;
    set(next);
  };
  useEffect(() => () => source.current?.close(), []);
  const listen = (job: string) => {
    id.current = job;
    const events = new EventSource(jobs.events(job));
    source.current = events;
    events.addEventListener("progress", (event) => set({ is: "running", progress: read<Progress>(event) ?? UNKNOWN }));
    events.addEventListener("done", (event) => {
      const result = read<{ answer: T }>(event);
      end(result ? { is: "done", result: result.answer } : { is: "failed", sentence: t("parts.error") });
    });
    events.addEventListener("failed", (event) => end({ is: "failed", sentence: read<Failure>(event)?.sentence ?? t("parts.error") }));
    events.addEventListener("cancelled", () => end({ is: "cancelled" }));
    // A lost connection is taken up again by the browser itself; one that is refused for good is closed.
    events.onerror = () => events.readyState === EventSource.CLOSED && end({ is: "failed", sentence: t("parts.offline") });
  };
  const begin = () => {
    if (id.current !== null) return;
    set({ is: "running", progress: UNKNOWN });
    jobs.begin(work).then(
      ({ id: job }) => listen(job),
      (error: unknown) => end({ is: "failed", sentence: error instanceof Error ? error.message : String(error) }),
    );
  };
  const cancel = () => {
    const job = id.current;
    if (job === null) return;
    jobs.cancel(job).then(
      () => id.current === job && end({ is: "cancelled" }),
      () => {},
    );
  };
  return { now, begin, cancel };
}
