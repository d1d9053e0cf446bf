import type { LngLat } from '../../core/domain/coordinates';

/** Follows where the device is, once asked to; nothing of it leaves the page. */
export class Here {
  place = $state.raw<LngLat | null>(null);
  /** One standard deviation as the device says, metres. */
  accuracyM = $state.raw<number | null>(null);
  #watch: number | null = null;

  readonly canFollow = 'geolocation' in navigator;

  constructor(
    readonly onPlace: (place: LngLat, accuracyM: number) => void,
    readonly onTrouble: (why: string) => void,
  ) {}

  toggle(): void {
    if (this.#watch !== null) {
      navigator.geolocation.clearWatch(this.#watch);
      this.#watch = null;
      this.place = null;
      return;
    }
    this.#watch = navigator.geolocation.watchPosition(
      ({ coords }) => {
        this.place = [coords.longitude, coords.latitude];
        this.accuracyM = coords.accuracy;
        this.onPlace(this.place, coords.accuracy);
      },
      ({ code }) =>
        this.onTrouble(
          code === 1 ? 'The browser may not say where you are' : 'The device does not know where it is',
        ),
      { enableHighAccuracy: true, maximumAge: 5000, timeout: 30_000 },
    );
  }
}
