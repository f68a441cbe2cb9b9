package app.tankround.followups;

import java.util.UUID;

/** Something that needs somebody. */
public record FollowupId(UUID value) {

    public static FollowupId of(UUID value) {
        return new FollowupId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static FollowupId parse(String text) {
        return new FollowupId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
