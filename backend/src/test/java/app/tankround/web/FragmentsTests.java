package app.tankround.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.support.ResourceBundleMessageSource;
import org.springframework.format.FormatterRegistry;
import org.springframework.format.datetime.standard.DateTimeFormatterRegistrar;
import org.springframework.mock.web.MockServletContext;
import org.springframework.stereotype.Controller;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.setup.MockMvcBuilders;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.context.support.AnnotationConfigWebApplicationContext;
import org.springframework.web.servlet.config.annotation.EnableWebMvc;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import org.thymeleaf.spring6.SpringTemplateEngine;
import org.thymeleaf.spring6.view.ThymeleafViewResolver;
import org.thymeleaf.templateresolver.ClassLoaderTemplateResolver;

/** Renders the shared fragments as the pages of every module use them. */
class FragmentsTests {

    private static final AnnotationConfigWebApplicationContext CONTEXT = new AnnotationConfigWebApplicationContext();
    private static MockMvcTester mvc;

    @BeforeAll
    static void startPages() {
        CONTEXT.setServletContext(new MockServletContext());
        CONTEXT.register(Pages.class, FormController.class, BindingAdvice.class);
        CONTEXT.refresh();
        mvc = MockMvcTester.create(MockMvcBuilders.webAppContextSetup(CONTEXT).build());
    }

    @AfterAll
    static void stopPages() {
        CONTEXT.close();
    }

    @Test
    void wiresLabelHintAndUnitToTheField() {
        String page = get("/form");
        assertThat(page)
                .contains("<label for=\"f-name\">Name")
                .containsPattern(
                        "<input[^>]*id=\"f-name\"[^>]*aria-describedby=\"f-name-hint\"[^>]*value=\"Dining room\"")
                .contains("<p class=\"hint\" id=\"f-name-hint\">As on the sump</p>")
                .containsPattern("<input[^>]*id=\"f-volume\"[^>]*inputmode=\"decimal\"[^>]*name=\"volume\"")
                .contains("<span class=\"unit\">L</span>")
                .contains("Last time 640 L")
                .containsPattern("<input[^>]*type=\"date\"[^>]*id=\"f-since\"[^>]*value=\"2026-11-19\"")
                .containsPattern("<input[^>]*type=\"time\"[^>]*id=\"f-feeding\"[^>]*value=\"13:45\"")
                .containsPattern("<option value=\"REEF\" selected=\"selected\">Reef</option>")
                .containsPattern("<input[^>]*id=\"f-quarantine\"[^>]*checked=\"checked\"")
                .containsPattern("id=\"f-lines-0-take\"[^>]* name=\"lines\\[0\\].take\" value=\"9\"")
                .containsPattern("<input type=\"hidden\"[^>]*name=\"version\" value=\"4\"")
                .doesNotContain("aria-invalid")
                .doesNotContain("error-summary");
    }

    @Test
    void keepsRefusedValueAndPointsAtIt() {
        String page = body(
                mvc.post().uri("/form").param("name", "").param("volume", "-5").param("version", "4"));
        assertThat(page)
                .containsPattern(
                        "<input[^>]*id=\"f-volume\"[^>]*aria-describedby=\"f-volume-error\"[^>]*aria-invalid=\"true\"[^>]*value=\"-5\"")
                .containsPattern("<input[^>]*id=\"f-name\"[^>]*aria-describedby=\"f-name-hint f-name-error\"")
                .containsPattern("(?s)<div id=\"f-volume-error\">.*-5 L cannot be. From 1 to 100000 L.")
                .containsPattern(
                        "(?s)class=\"error-summary\".*<a href=\"#f-volume\">-5 L cannot be. From 1 to 100000 L.</a>")
                .contains("Nothing of this tank agrees.");
    }

    @Test
    void keepsWhatCannotBeReadAsFigure() {
        String page = body(mvc.post().uri("/form").param("volume", "6x0").param("version", "4"));
        assertThat(page)
                .containsPattern("<input[^>]*id=\"f-volume\"[^>]*value=\"6x0\"")
                .contains("“6x0” is not a number. Write it like 8.1, with digits and one decimal mark.")
                .doesNotContain("NumberFormatException");
    }

    @Test
    void marksTheCurrentSectionAndNamesThePerson() {
        String page = get("/form");
        assertThat(page)
                .contains("<title>Tank · Tankround</title>")
                .containsPattern("<a href=\"/tanks\" aria-current=\"page\">Tanks</a>")
                .containsPattern("<a href=\"/\">Today</a>")
                .contains("Maud Linden")
                .contains("<script type=\"module\" src=\"/js/tanks/tank.js\"></script>")
                .contains("<main id=\"content\" tabindex=\"-1\">")
                .contains("Tank 7 is saved.");
    }

    @Test
    void drawsVerdictOnlyWithItsWord() {
        assertThat(get("/form"))
                .contains("<path class=\"mk-out\" d=\"M105.5 7l7 7-7 7-7-7z\"></path>")
                .containsPattern(
                        "(?s)state state-signal state-strong.*#untrusted.*<span>Not trusted</span>.*really 1.033");
    }

    @Test
    void givesEmptyListTheNextStep() {
        assertThat(get("/form"))
                .contains("<p class=\"say\">No tanks yet.</p>")
                .containsPattern("<a class=\"button button-strong\" href=\"/tanks/new\">Add a tank</a>")
                .containsPattern("(?s)class=\"notice notice-signal\".*Do not trust this.*R-02 reads too low.")
                .containsPattern("(?s)class=\"sync-line\"\\s+role=\"status\".*#unsynced")
                .containsPattern("<a class=\"button\" rel=\"next\" href=\"/form\\?page=1\">Page after</a>")
                .contains("Page 1 of 3");
    }

    @Test
    void hasNoInlineScriptOrStyle() {
        assertThat(get("/form"))
                .doesNotContain(" style=")
                .doesNotContainPattern("<style|<script(?![^>]* src=)| on[a-z]+=");
    }

    @Test
    void errorPageSaysWhatIsSafeAndHidesTheException() {
        for (String code : List.of("error", "error/403", "error/404", "error/409", "error/5xx")) {
            assertThat(get("/fault?view=" + code))
                    .as(code)
                    .contains("<h1>")
                    .contains("Go to today")
                    .doesNotContain("??")
                    .doesNotContain("table tank is broken");
        }
        assertThat(get("/fault?view=error/409")).contains("Yours is not saved yet, and nothing was overwritten.");
    }

    private static String get(String uri) {
        return body(mvc.get().uri(uri));
    }

    private static String body(MockMvcTester.MockMvcRequestBuilder request) {
        String html = assertThat(request).hasStatusOk().bodyText().actual();
        return html.replaceAll("\\s+", " ").replace(" >", ">").replace("> <", "><");
    }

    static class Line {
        private int take;

        public int getTake() {
            return take;
        }

        public void setTake(int take) {
            this.take = take;
        }
    }

    static class Form {
        private @Nullable String name = "Dining room";
        private @Nullable BigDecimal volume = new BigDecimal("640");
        private @Nullable LocalDate since = LocalDate.of(2026, 11, 19);
        private @Nullable LocalTime feeding = LocalTime.of(13, 45);
        private String kind = "REEF";
        private boolean quarantine = true;
        private String notes = "";
        private int version = 4;
        private List<Line> lines = List.of(new Line());

        Form() {
            lines.getFirst().setTake(9);
        }

        public @Nullable String getName() {
            return name;
        }

        public void setName(@Nullable String name) {
            this.name = name;
        }

        public @Nullable BigDecimal getVolume() {
            return volume;
        }

        public void setVolume(@Nullable BigDecimal volume) {
            this.volume = volume;
        }

        public @Nullable LocalDate getSince() {
            return since;
        }

        public void setSince(@Nullable LocalDate since) {
            this.since = since;
        }

        public @Nullable LocalTime getFeeding() {
            return feeding;
        }

        public void setFeeding(@Nullable LocalTime feeding) {
            this.feeding = feeding;
        }

        public String getKind() {
            return kind;
        }

        public void setKind(String kind) {
            this.kind = kind;
        }

        public boolean isQuarantine() {
            return quarantine;
        }

        public void setQuarantine(boolean quarantine) {
            this.quarantine = quarantine;
        }

        public String getNotes() {
            return notes;
        }

        public void setNotes(String notes) {
            this.notes = notes;
        }

        public int getVersion() {
            return version;
        }

        public void setVersion(int version) {
            this.version = version;
        }

        public List<Line> getLines() {
            return lines;
        }

        public void setLines(List<Line> lines) {
            this.lines = lines;
        }
    }

    @Controller
    static class FormController {

        @ModelAttribute
        void shared(Model model) {
            model.addAttribute(
                    "navigation",
                    List.of(NavigationItem.forStaff(1, "today", "/"), NavigationItem.forStaff(2, "tanks", "/tanks")));
            model.addAttribute("person", "Maud Linden");
            model.addAttribute("kinds", List.of(new Choice("PLANTED", "Planted"), new Choice("REEF", "Reef")));
            model.addAttribute("flash", "test.saved");
            model.addAttribute("flashArguments", List.of(7));
            model.addAttribute("mark", VerdictMark.untrusted(1.019, 1.036, 1.023, 1.026, 1.025, 1.033, 0.001));
        }

        @GetMapping("/form")
        String show(@ModelAttribute("form") Form form) {
            return "web/form";
        }

        @PostMapping("/form")
        String refuse(@ModelAttribute("form") Form form, BindingResult result) {
            if (form.getName() == null) {
                result.rejectValue("name", "test.name");
            }
            BigDecimal volume = form.getVolume();
            if (!result.hasFieldErrors("volume") && volume != null && volume.signum() <= 0) {
                result.rejectValue("volume", "test.volume", new Object[] {volume}, null);
            }
            result.reject("test.all");
            return "web/form";
        }

        @GetMapping("/fault")
        String fault(String view, Model model) {
            model.addAttribute("status", 500);
            model.addAttribute("timestamp", "2026-11-19 08:21");
            model.addAttribute("message", "table tank is broken");
            model.addAttribute("trace", "table tank is broken");
            return view;
        }
    }

    @Configuration
    @EnableWebMvc
    static class Pages implements WebMvcConfigurer {

        @Override
        public void addFormatters(FormatterRegistry registry) {
            DateTimeFormatterRegistrar iso = new DateTimeFormatterRegistrar();
            iso.setUseIsoFormat(true);
            iso.registerFormatters(registry);
        }

        @Bean
        ResourceBundleMessageSource messageSource() {
            ResourceBundleMessageSource messages = new ResourceBundleMessageSource();
            messages.setBasenames("messages/web", "messages/web-test");
            messages.setDefaultEncoding("UTF-8");
            messages.setFallbackToSystemLocale(false);
            return messages;
        }

        @Bean
        SpringTemplateEngine templateEngine() {
            ClassLoaderTemplateResolver templates = new ClassLoaderTemplateResolver();
            templates.setPrefix("templates/");
            templates.setSuffix(".html");
            templates.setCharacterEncoding("UTF-8");
            SpringTemplateEngine engine = new SpringTemplateEngine();
            engine.setTemplateResolver(templates);
            engine.setEnableSpringELCompiler(false);
            return engine;
        }

        @Bean
        ThymeleafViewResolver viewResolver(SpringTemplateEngine engine) {
            ThymeleafViewResolver resolver = new ThymeleafViewResolver();
            resolver.setTemplateEngine(engine);
            resolver.setCharacterEncoding("UTF-8");
            return resolver;
        }
    }
}
