package app.tankround.rounds.web;

import app.tankround.clients.SiteView;
import app.tankround.rounds.solver.Position;
import app.tankround.units.Distance;
import app.tankround.web.DistanceText;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/**
 * A round drawn plainly: where its sites lie to each other, their order, the depot and a scale. North is up; a degree of
 * longitude is drawn as long as it is at the middle of the round, which over a day's drive is true enough to look at.
 *
 * @param places the depot first, then the stops in their order; in units of the drawing
 * @param scaleLength length of the scale in units of the drawing
 * @param scale what that is on the ground, such as {@code 5 km}
 */
record RoundMap(List<Place> places, double scaleLength, String scale) {

    static final int WIDTH = 640;
    static final int HEIGHT = 420;

    private static final int MARGIN = 48;
    private static final double LONGEST_SCALE = WIDTH / 3.0;
    /** Of a round at one spot; it is drawn in the middle. */
    private static final double LEAST_SPAN_M = 100;

    /** A point with what stands beside it: a number, or nothing for the depot. */
    record Place(double x, double y, String label, String name) {}

    RoundMap {
        places = List.copyOf(places);
    }

    static RoundMap of(SiteView depot, List<SiteView> stops, DistanceText distances) {
        List<SiteView> all = new ArrayList<>(stops);
        all.addFirst(depot);
        double south = all.stream().mapToDouble(SiteView::latitude).min().orElse(0);
        double north = all.stream().mapToDouble(SiteView::latitude).max().orElse(0);
        double west = all.stream().mapToDouble(SiteView::longitude).min().orElse(0);
        double east = all.stream().mapToDouble(SiteView::longitude).max().orElse(0);
        Position middle = new Position((south + north) / 2, (west + east) / 2);
        double metresPerLatitude = new Position(0, 0).greatCircleMetresTo(new Position(1, 0));
        double metresPerLongitude = metresPerLatitude * Math.cos(Math.toRadians(middle.latitudeDegrees()));
        double wide = Math.max(LEAST_SPAN_M, (east - west) * metresPerLongitude);
        double high = Math.max(LEAST_SPAN_M, (north - south) * metresPerLatitude);
        double perMetre = Math.min((WIDTH - 2.0 * MARGIN) / wide, (HEIGHT - 2.0 * MARGIN) / high);
        List<Place> places = new ArrayList<>();
        for (int k = 0; k < all.size(); k++) {
            SiteView site = all.get(k);
            places.add(new Place(
                    WIDTH / 2.0 + (site.longitude() - middle.longitudeDegrees()) * metresPerLongitude * perMetre,
                    HEIGHT / 2.0 - (site.latitude() - middle.latitudeDegrees()) * metresPerLatitude * perMetre,
                    k == 0 ? "" : String.valueOf(k),
                    site.name()));
        }
        double inUnit = distances.value(Distance.ofMetres(LONGEST_SCALE / perMetre));
        double scale = roundLength(inUnit);
        return new RoundMap(places, LONGEST_SCALE * scale / inUnit, distances.ofUnits(scale));
    }

    /** The longest of 1, 2 or 5 times a power of ten that is no longer. */
    private static double roundLength(double length) {
        double power = Math.pow(10, Math.floor(Math.log10(length)));
        double digits = length / power;
        double first = digits >= 5 ? 5 : digits >= 2 ? 2 : 1;
        return first * power;
    }

    /** The way from the depot through all stops and back, as points of a polyline. */
    public String way() {
        List<Place> way = new ArrayList<>(places);
        way.add(places.getFirst());
        return way.stream()
                .map(place -> String.format(Locale.ROOT, "%.1f,%.1f", place.x(), place.y()))
                .collect(Collectors.joining(" "));
    }
}
