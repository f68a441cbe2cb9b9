package app.tankround.chemistry;

/** What the numbers of a plant for purified water say; the numbers that each code carries are named here. */
public enum PurifiedWaterCode {
    /** The membrane's flow, at 25 °C, fell; numbers: percent of the first flow. */
    FLOW_DOWN,
    /** It rose: with more salt behind it, a torn membrane or a seal; numbers: percent of the first flow. */
    FLOW_UP,
    /** Flows were not compared at the same pressure, which alone changes them; no numbers. */
    PRESSURE_UNKNOWN,
    /** Too little salt is held back; numbers: percent held back, percent wanted. */
    REJECTION_LOW,
    /** The permeate carries more than the feed: points exchanged or a torn membrane; no numbers. */
    PERMEATE_WORSE_THAN_FEED,
    /** The water after the resin shows that it is going; numbers: mg/L. */
    RESIN_PASSES,
    /** By what went through it the resin is used up; numbers: litres made since. */
    RESIN_SPENT,
    /** It will be used up soon; numbers: litres, days. */
    RESIN_ENDS,
    /** Drop over the prefilter reached its limit; numbers: kPa, limit in kPa. */
    PREFILTER_CLOGGED,
    /** The prefilter is as old as it may be; numbers: whole months, months allowed. */
    PREFILTER_OLD,
    /** The carbon is as old as it may be; numbers: whole months, months allowed. */
    CARBON_OLD,
    /** Water after the carbon has to be tested; numbers: litres made since the last test, litres allowed. */
    CHLORINE_TEST_DUE,
    /** Nobody knows how much was made since the last test, since the meter is not read; numbers: whole days since. */
    LITRES_UNKNOWN,
    /** It never was; no numbers. */
    CHLORINE_NEVER_TESTED,
    /** Only free chlorine was tested, which does not see chloramine; no numbers. */
    CHLORAMINE_UNKNOWN,
    /** Chlorine passes the carbon; numbers: mg/L of free chlorine. */
    CHLORINE_PASSES,
    /** Chloramine passes the carbon; numbers: mg/L as chlorine. */
    CHLORAMINE_PASSES
}
