package app.tankround.accounts;

import java.util.Set;

/**
 * What a person may do.
 *
 * @param version 0 where nobody has said anything
 */
public record SkillsView(PersonId person, Set<Skill> skills, int version) {

    public SkillsView {
        skills = Set.copyOf(skills);
    }
}
