/**
 * Keeps the screen of a tablet from going dark while somebody plays: nothing is touched meanwhile. Where a browser
 * cannot, or the battery is low, it goes dark as ever.
 *
 * @returns lets it go dark again
 */
export function stayAwake(): () => void {
  let ended = false;
  let lock: WakeLockSentinel | null = null;
  const hold = async () => {
    const held = (await navigator.wakeLock?.request("screen").catch(() => null)) ?? null;
    if (ended) void held?.release();
    else lock = held;
  };
  // A window that was hidden has lost its hold.
  const again = () => {
    if (document.visibilityState === "visible") void hold();
  };
  document.addEventListener("visibilitychange", again);
  void hold();
  return () => {
    ended = true;
    document.removeEventListener("visibilitychange", again);
    void lock?.release();
  };
}
