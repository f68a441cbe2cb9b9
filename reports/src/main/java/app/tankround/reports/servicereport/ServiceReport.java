package app.tankround.reports.servicereport;

import app.tankround.reports.Picture;
import app.tankround.reports.Texts;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Everything the report of one visit says.
 *
 * @param language language of all texts, for screen readers and line breaks
 * @param issuedAt when this version was made; becomes the creation date of the file
 * @param title heading of the report, such as {@code Your aquarium on 19 November}
 * @param business who sends the report
 * @param visit whom it is for and which visit it tells of
 * @param correction what this version corrects, or {@code null} if it corrects nothing
 * @param summary the news in short sentences, read first; may be empty
 * @param waterSystems the water systems seen, in the order of the visit
 * @param siteWork what was done for the site as a whole and for no single water system; may be empty
 * @param photos may be empty
 * @param advice what the client can do, in order; may be empty
 * @param nextVisit what comes next, or {@code null} if nothing is planned
 * @param cautions safety sentences at the end; may be empty
 * @param signatures may be empty
 */
public record ServiceReport(
        Locale language,
        Instant issuedAt,
        String title,
        Business business,
        Visit visit,
        @Nullable Correction correction,
        List<String> summary,
        List<WaterSystem> waterSystems,
        List<String> siteWork,
        List<Photo> photos,
        List<String> advice,
        @Nullable NextVisit nextVisit,
        List<String> cautions,
        List<Signature> signatures) {

    /** @throws IllegalArgumentException if the language is undetermined or the title blank */
    public ServiceReport {
        if (language.getLanguage().isEmpty()) {
            throw new IllegalArgumentException("A report needs a language, not \"" + language + "\"");
        }
        Texts.requireText("title", title);
        summary = List.copyOf(summary);
        waterSystems = List.copyOf(waterSystems);
        siteWork = List.copyOf(siteWork);
        photos = List.copyOf(photos);
        advice = List.copyOf(advice);
        cautions = List.copyOf(cautions);
        signatures = List.copyOf(signatures);
    }

    /**
     * Letterhead.
     *
     * @param name trading name
     * @param contact lines below the name: address, telephone, mail; may be empty
     */
    public record Business(String name, List<String> contact) {
        public Business {
            Texts.requireText("name of the business", name);
            contact = List.copyOf(contact);
        }
    }

    /**
     * Particulars of the visit.
     *
     * @param number the report's own number, such as {@code V-2290}
     * @param version which version of the report this is, such as {@code 2}
     * @param client name of the client
     * @param site name or address of the site
     * @param date date of the visit, with times if they are to be shown
     * @param technician who came
     * @param met who was met at the site, or {@code null}
     */
    public record Visit(
            String number,
            String version,
            String client,
            String site,
            String date,
            String technician,
            @Nullable String met) {
        public Visit {
            Texts.requireText("report number", number);
            Texts.requireText("version", version);
            Texts.requireText("client", client);
            Texts.requireText("site", site);
            Texts.requireText("date", date);
            Texts.requireText("technician", technician);
        }
    }

    /**
     * What an earlier version said otherwise.
     *
     * @param heading names that version
     * @param changes a sentence each; at least one
     */
    public record Correction(String heading, List<String> changes) {
        public Correction {
            Texts.requireText("heading of a correction", heading);
            changes = List.copyOf(changes);
            if (changes.isEmpty()) {
                throw new IllegalArgumentException("A correction without changes");
            }
        }
    }

    /** A photo and the line below it. */
    public record Photo(Picture picture, String caption) {
        public Photo {
            Texts.requireText("caption of a photo", caption);
        }
    }

    /**
     * @param when day and time, such as {@code Monday 23 November, 11:15 to 12:30}
     * @param plan what is planned, a sentence each; may be empty
     */
    public record NextVisit(String when, List<String> plan) {
        public NextVisit {
            Texts.requireText("day of the next visit", when);
            plan = List.copyOf(plan);
        }
    }

    /**
     * @param image the drawn signature, or {@code null} where nobody drew one and the caption says who it is, or why
     * @param caption who signs for whom
     */
    public record Signature(@Nullable Picture image, String caption) {
        public Signature {
            Texts.requireText("caption of a signature", caption);
        }
    }
}
