package app.tankround.tablet.web;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.core.io.ClassPathResource;
import org.springframework.core.io.Resource;
import org.springframework.core.io.support.PathMatchingResourcePatternResolver;
import org.springframework.http.CacheControl;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

/**
 * The script that lets a tablet show its pages without a signal. It names every file that they are made of, and changes
 * when one of them does: then the tablet fetches all anew, beside what it has, and takes them over when its person says so.
 */
@RestController
class WorkerController {

    private static final String PAGE = "/tablet/page";

    /** Where files lie in the program, by the beginning of their addresses. */
    private static final Map<String, List<String>> FILES = new TreeMap<>(Map.of(
            "/css/",
            List.of("static/css/*.css"),
            "/fonts/",
            List.of("static/fonts/*.woff2"),
            "/img/",
            List.of("static/img/*.svg"),
            "/js/chemistry/",
            List.of("static/js/chemistry/*.js"),
            "/js/tablet/",
            List.of("static/js/tablet/*.js"),
            "/js/web/",
            List.of("static/js/web/*.js"),
            TabletConfiguration.ADDRESS,
            List.of(TabletConfiguration.IDB + "index.js", TabletConfiguration.IDB + "wrap-idb-value.js")));

    /** What the page is made of beside those. */
    private static final List<String> PARTS = List.of(
            "templates/tablet/visit.html",
            "templates/fragments/layout.html",
            "templates/fragments/marks.html",
            "messages/tablet*.properties",
            "messages/web*.properties");

    private final PathMatchingResourcePatternResolver resources = new PathMatchingResourcePatternResolver();
    private volatile Optional<String> script = Optional.empty();

    @GetMapping("/sw.js")
    ResponseEntity<String> worker() throws IOException {
        if (script.isEmpty()) {
            script = Optional.of(written());
        }
        return ResponseEntity.ok()
                .contentType(new MediaType("text", "javascript", StandardCharsets.UTF_8))
                .cacheControl(CacheControl.noCache())
                .body(script.get());
    }

    private String written() throws IOException {
        Map<String, Resource> files = new TreeMap<>();
        for (var place : FILES.entrySet()) {
            for (Resource file : found(place.getValue())) {
                files.put(place.getKey() + file.getFilename(), file);
            }
        }
        String addresses = Stream.concat(files.keySet().stream(), Stream.of(PAGE))
                .map(address -> "\"" + address + "\"")
                .collect(Collectors.joining(", "));
        var rules = new ClassPathResource("tablet/service-worker.js");
        return "const BUILD = \"%s\";%nconst FILES = [%s];%n%s"
                .formatted(
                        fingerprint(files.values(), found(PARTS), List.of(rules)),
                        addresses,
                        rules.getContentAsString(StandardCharsets.UTF_8));
    }

    private List<Resource> found(List<String> patterns) throws IOException {
        Stream.Builder<Resource> found = Stream.builder();
        for (String pattern : patterns) {
            Arrays.stream(resources.getResources("classpath*:" + pattern))
                    .sorted(Comparator.comparing(file -> String.valueOf(file.getFilename())))
                    .forEach(found);
        }
        return found.build().toList();
    }

    @SafeVarargs
    private static String fingerprint(Collection<? extends Resource>... parts) throws IOException {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            for (Collection<? extends Resource> files : parts) {
                for (Resource file : files) {
                    digest.update(file.getContentAsByteArray());
                }
            }
            return HexFormat.of().formatHex(digest.digest(), 0, 8);
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException(impossible);
        }
    }
}
