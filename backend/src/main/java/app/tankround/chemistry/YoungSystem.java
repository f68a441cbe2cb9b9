package app.tankround.chemistry;

/**
 * What is expected of a system by its age, in weeks of its life; the first seven days are week 1.
 *
 * <p>The order is published: ammonia rises and falls as nitrite rises, nitrite falls as nitrate rises, within one to six
 * weeks by temperature and source of ammonia (FAO Fisheries and Aquaculture Technical Paper 589 and the FAO glossary); a
 * hatchery programme for schools gives about two weeks of ammonia and then about two of nitrite. That it may take eight weeks,
 * and all that is said of films and of cloudy water, is common practice, no source.
 */
public final class YoungSystem {

    /** The first week in which a filter must cope, so that ammonia or nitrite are an alarm: common practice, no source. */
    public static final int RIPE_WEEK = 10;

    /** Until then only few animals go in at a time: own choice. */
    public static final int LAST_YOUNG_WEEK = 26;

    /** Of what does not pass. */
    private static final int STAYS = Integer.MAX_VALUE;

    /** What comes, and mostly goes again. */
    public enum Course {
        /** Bacteria that float free; common practice, no source. */
        CLOUDY_WATER(1, 2, 1, 4),
        AMMONIA(1, 2, 1, 8),
        NITRITE(3, 4, 1, 8),
        NITRATE(3, STAYS, 2, STAYS),
        /** Diatoms; passes by itself within one or two more weeks. Common practice, no source. */
        BROWN_FILM(2, 4, 2, 4),
        /** Algae, once there is nitrate; common practice, no source. */
        GREEN_FILM(4, 8, 3, 12);

        private final int usualFrom;
        private final int usualUntil;
        private final int earliest;
        private final int latest;

        Course(int usualFrom, int usualUntil, int earliest, int latest) {
            this.usualFrom = usualFrom;
            this.usualUntil = usualUntil;
            this.earliest = earliest;
            this.latest = latest;
        }

        /** First week in which most systems show it. */
        public int usualFrom() {
            return usualFrom;
        }

        /** Last week in which most systems show it. */
        public int usualUntil() {
            return usualUntil;
        }

        /** First week in which any system does. */
        public int earliest() {
            return earliest;
        }

        /** Last week in which any system does, other things being well. */
        public int latest() {
            return latest;
        }

        /** Whether it stays once it has come. */
        public boolean stays() {
            return latest == STAYS;
        }

        public Stage in(long week) {
            if (week < earliest) {
                return Stage.NOT_YET;
            }
            if (week > latest) {
                return Stage.OVER;
            }
            return week >= usualFrom && week <= usualUntil ? Stage.USUAL : Stage.POSSIBLE;
        }
    }

    public enum Stage {
        NOT_YET,
        /** Within the spread. */
        POSSIBLE,
        USUAL,
        /** Seen now, it did not pass as it should, or came back. */
        OVER
    }

    private YoungSystem() {}

    /** Whether the filter must cope by now. */
    public static boolean isRipe(long week) {
        return week >= RIPE_WEEK;
    }

    /** Whether what is expected of young systems is expected at all. */
    public static boolean isYoung(long week) {
        return week <= LAST_YOUNG_WEEK;
    }
}
