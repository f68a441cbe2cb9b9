package app.tankround.testing;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.NewPerson;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.accounts.SignInLinks;
import app.tankround.chemistry.DecisionRule;
import app.tankround.units.UnitSystem;
import java.time.ZoneId;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.joda.money.CurrencyUnit;
import org.springframework.stereotype.Component;

/** A business with one person of each role, made once in each test database. */
@Component
public class TestPeople {

    private final BusinessProfile profile;
    private final People people;
    private final SignInLinks links;

    TestPeople(BusinessProfile profile, People people, SignInLinks links) {
        this.profile = profile;
        this.people = people;
        this.links = links;
    }

    public static BusinessSettings settings() {
        return new BusinessSettings(
                "Skerry Water Care",
                Optional.of("office@skerry.example"),
                Optional.of("0555 010 100"),
                Optional.of("2 Slip Road"),
                CurrencyUnit.EUR,
                "IE",
                Locale.forLanguageTag("en-IE"),
                ZoneId.of("Europe/Dublin"),
                UnitSystem.METRIC,
                "20/20",
                0.95,
                DecisionRule.GUARD_BAND,
                0);
    }

    /** The person of that role, made together with the business where they are not there yet. */
    public synchronized PersonId person(Role role) {
        if (profile.find().isEmpty()) {
            profile.save(settings());
        }
        String name = role.name().toLowerCase(Locale.ROOT);
        return people.findBySignInName(name)
                .map(person -> person.id())
                .orElseGet(() -> people.add(new NewPerson(
                        PersonId.of(UUID.randomUUID()), name, "Test " + name, role, Locale.forLanguageTag("en-IE"))));
    }

    /** A path that signs the person of that role in once. */
    public String signInPath(Role role) {
        return "/sign-in/once/" + links.tokenFor(person(role));
    }
}
