package app.tankround.tanks.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Role;
import app.tankround.testing.TestPeople;
import java.io.UnsupportedEncodingException;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Pattern;
import org.springframework.boot.test.context.TestComponent;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** Opens pages and sends forms as a signed-in person. */
@TestComponent
public class PageTester {

    private final MockMvcTester mvc;
    private final TestPeople people;
    private final CurrentPerson currentPerson;

    PageTester(MockMvcTester mvc, TestPeople people, CurrentPerson currentPerson) {
        this.mvc = mvc;
        this.people = people;
        this.currentPerson = currentPerson;
    }

    public String page(Role role, String path) {
        MvcTestResult answer = get(role, path);
        assertThat(answer).hasStatusOk();
        return body(answer);
    }

    public MvcTestResult get(Role role, String path) {
        return mvc.get().uri(path).with(authentication(signedIn(role))).exchange();
    }

    public MvcTestResult post(Role role, String path, Map<String, String> form) {
        var request = mvc.post().uri(path).with(authentication(signedIn(role))).with(csrf());
        form.forEach(request::param);
        return request.exchange();
    }

    /** What the page says, with character references read and blanks made single. */
    public static String body(MvcTestResult answer) {
        try {
            return answer.getResponse()
                    .getContentAsString()
                    .replace("&#39;", "'")
                    .replace('\u00a0', ' ')
                    .replaceAll("\\s+", " ");
        } catch (UnsupportedEncodingException impossible) {
            throw new AssertionError(impossible);
        }
    }

    /** The value that a form's field holds. */
    public static String value(String page, String field) {
        var input = Pattern.compile("<input[^>]*name=\"" + Pattern.quote(field) + "\"[^>]*>")
                .matcher(page);
        assertThat(input.find()).as("a field " + field).isTrue();
        var value = Pattern.compile("value=\"([^\"]*)\"").matcher(input.group());
        return value.find() ? value.group(1) : "";
    }

    /** What is said at a field that was refused. */
    public static String refusal(String page, String field) {
        String id = "f-" + field.replace("[", "-").replace("]", "").replace(".", "-");
        var error =
                Pattern.compile("id=\"" + id + "-error\">.*?<span>(.*?)</span>").matcher(page);
        assertThat(error.find()).as("a refusal at " + field).isTrue();
        return error.group(1);
    }

    private Authentication signedIn(Role role) {
        try {
            return currentPerson.actingAs(
                    people.person(role),
                    () -> Objects.requireNonNull(
                            SecurityContextHolder.getContext().getAuthentication(),
                            role.name().toLowerCase(Locale.ROOT)));
        } catch (Exception impossible) {
            throw new AssertionError(impossible);
        }
    }
}
