package app.tankround.rounds.solver;

/**
 * A point on the Earth, WGS 84.
 *
 * @param latitudeDegrees -90 to 90, north positive
 * @param longitudeDegrees -180 to 180, east positive
 */
public record Position(double latitudeDegrees, double longitudeDegrees) {

    /** Mean radius R1 of the WGS 84 ellipsoid, (2a + b) / 3 with a = 6378.1370 km and b = 6356.7523 km. */
    public static final double EARTH_RADIUS_KILOMETRES = 6371.0088;

    /** Refuses, with {@link IllegalArgumentException}, NaN and values outside the ranges above. */
    public Position {
        if (!(Math.abs(latitudeDegrees) <= 90)) {
            throw new IllegalArgumentException("Latitude must be -90 to 90 degrees, not " + latitudeDegrees);
        }
        if (!(Math.abs(longitudeDegrees) <= 180)) {
            throw new IllegalArgumentException("Longitude must be -180 to 180 degrees, not " + longitudeDegrees);
        }
    }

    /** Great-circle distance in metres on a sphere of radius {@link #EARTH_RADIUS_KILOMETRES}; haversine formula. */
    public double greatCircleMetresTo(Position other) {
        return centralAngleTo(other) * EARTH_RADIUS_KILOMETRES * 1000;
    }

    /** Angle between the two positions seen from the centre of the Earth, in radians, 0 to pi. */
    double centralAngleTo(Position other) {
        double lat1 = Math.toRadians(latitudeDegrees);
        double lat2 = Math.toRadians(other.latitudeDegrees);
        double sinLat = Math.sin((lat2 - lat1) / 2);
        double sinLon = Math.sin(Math.toRadians(other.longitudeDegrees - longitudeDegrees) / 2);
        double haversine = sinLat * sinLat + Math.cos(lat1) * Math.cos(lat2) * sinLon * sinLon;
        // Rounding can lift the haversine of near-antipodes just above 1.
        return 2 * Math.asin(Math.sqrt(Math.min(1, haversine)));
    }
}
