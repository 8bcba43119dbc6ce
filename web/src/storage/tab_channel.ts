// Tabs of one browser tell each other what was saved, so that one that only looks on follows by itself.
import type { Services } from "../state/services";

interface Said {
  ride_id: string;
  revision: number;
}

export function tabChannel(): Pick<Services, "tellTabs" | "hearTabs"> {
  const channel = new BroadcastChannel("outbye-saved");
  return {
    tellTabs: (ride_id, revision) => channel.postMessage({ ride_id, revision } satisfies Said),
    hearTabs(heard) {
      const listen = ({ data }: MessageEvent<Said>) => heard(data.ride_id, data.revision);
      channel.addEventListener("message", listen);
      return () => channel.removeEventListener("message", listen);
    },
  };
}
