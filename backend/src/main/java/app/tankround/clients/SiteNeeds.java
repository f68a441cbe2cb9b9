package app.tankround.clients;

import org.jspecify.annotations.Nullable;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;

/** What a stop at a site needs, as a row; {@link SiteNeedsDetails} says what the columns mean. */
record SiteNeeds(
        @Id SiteId siteId,
        Weekdays weekdays,
        Closures closures,
        @Nullable Integer arrivalMinutes,
        @Nullable Integer parkingMinutes,
        @Nullable Integer keyLeadDays,
        boolean twoPeople,
        boolean electrician,
        boolean diving,
        @Nullable String lift,
        @Version int version) {

    static SiteNeeds of(SiteId site, SiteNeedsDetails details, int version) {
        return new SiteNeeds(
                site,
                new Weekdays(details.weekdays()),
                new Closures(details.closures()),
                details.arrivalMinutes(),
                details.parkingMinutes(),
                details.keyLeadDays(),
                details.twoPeople(),
                details.electrician(),
                details.diving(),
                details.lift(),
                version);
    }

    SiteNeedsDetails details() {
        return new SiteNeedsDetails(
                weekdays.days(),
                closures.closures(),
                arrivalMinutes,
                parkingMinutes,
                keyLeadDays,
                twoPeople,
                electrician,
                diving,
                lift);
    }
}
