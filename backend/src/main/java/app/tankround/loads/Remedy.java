package app.tankround.loads;

import app.tankround.clients.SiteView;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopId;
import app.tankround.rounds.StopMoves;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * One way to make a round fit into its van.
 *
 * @param choice what is to be done
 * @param price what it costs by the terms of planning, in the business's currency; below 0 where it saves
 * @param left the round's van as it would leave
 * @param gained the van of the round that the stops would go to; empty where they stay
 * @param tell whoever has to be told another time
 */
public record Remedy(Choice choice, BigDecimal price, Burden left, Optional<Burden> gained, List<SiteView> tell) {

    /** What can be done. */
    public enum Kind {
        /** The van comes back to its depot on the way and loads again. */
        LOAD_AGAIN,
        /** Another van takes stops over. */
        OTHER_VAN,
        /** Salt water is mixed at the site, with its own RO/DI water. */
        MIX_ON_SITE,
        /** RO/DI water for later stops is filled at a site on the way. */
        REFILL_ON_THE_WAY,
        /** Less water is changed today, and the rest at the next visit. */
        SMALLER_CHANGE,
        /** Stops that may wait go to another day. */
        POSTPONE
    }

    /** What is to be done, as it can be said again. */
    public sealed interface Choice {

        Kind kind();

        /** Stops that go to another round. */
        record Move(Kind kind, List<StopId> stops, StopMoves.Target target) implements Choice {

            public Move {
                stops = List.copyOf(stops);
            }
        }

        /** Visits whose salt water is mixed at the site. */
        record Mix(List<PlannedVisitId> visits) implements Choice {

            public Mix {
                visits = List.copyOf(visits);
            }

            @Override
            public Kind kind() {
                return Kind.MIX_ON_SITE;
            }
        }

        /** Litres of RO/DI water that are filled at visits for later stops. */
        record Refill(Map<PlannedVisitId, BigDecimal> litres) implements Choice {

            public Refill {
                litres = Map.copyOf(litres);
            }

            @Override
            public Kind kind() {
                return Kind.REFILL_ON_THE_WAY;
            }
        }

        /** Litres that visits leave to the next one. */
        record Less(Map<PlannedVisitId, BigDecimal> litres) implements Choice {

            public Less {
                litres = Map.copyOf(litres);
            }

            @Override
            public Kind kind() {
                return Kind.SMALLER_CHANGE;
            }
        }
    }

    /**
     * A van with a load.
     *
     * @param mass as it leaves, people and tools included
     * @param over by how much it is too heavy on its heaviest leg; nothing if it is not
     * @param overRoom how much room its drums lack
     */
    public record Burden(RoundView round, Mass mass, Mass over, Volume overRoom) {

        static Burden of(LoadSheet sheet) {
            return new Burden(sheet.round(), sheet.total(), sheet.overOnTheWay(), sheet.overRoom());
        }

        public boolean fits() {
            return over.kilograms() == 0 && overRoom.litres() == 0;
        }
    }

    /** Whether everything fits once it is done. */
    public boolean settles() {
        return left.fits();
    }
}
