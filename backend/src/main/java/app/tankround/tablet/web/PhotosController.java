package app.tankround.tablet.web;

import app.tankround.documents.FileId;
import app.tankround.documents.FileStore;
import app.tankround.documents.StoredFile;
import app.tankround.tablet.Photos;
import app.tankround.web.FieldRefusal;
import app.tankround.web.LimitedBody;
import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.net.URI;
import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import org.springframework.context.MessageSource;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RestController;

/** Photos, sent before or after the entry that speaks of them. */
@RestController
class PhotosController {

    private final Photos photos;
    private final FileStore files;
    private final MessageSource messages;

    PhotosController(Photos photos, FileStore files, MessageSource messages) {
        this.photos = photos;
        this.files = files;
        this.messages = messages;
    }

    /** 204 once it is kept, also when sent again; 413 beyond 15 MB; 422 if it is no JPEG or PNG. */
    @PutMapping("/api/photos/{id}")
    ResponseEntity<?> put(@PathVariable FileId id, HttpServletRequest request, Locale locale) throws IOException {
        Optional<byte[]> content = LimitedBody.read(request, Photos.MOST_BYTES);
        if (content.isEmpty()) {
            ProblemDetail problem = ProblemDetail.forStatus(HttpStatus.CONTENT_TOO_LARGE);
            problem.setType(URI.create("/problems/photo-too-large"));
            problem.setTitle(messages.getMessage("tablet.problem.photo-too-large", null, locale));
            return ResponseEntity.status(HttpStatus.CONTENT_TOO_LARGE).body(problem);
        }
        photos.store(id, content.get());
        return ResponseEntity.noContent().build();
    }

    /** A photo; only pictures are given out here. */
    @GetMapping("/api/photos/{id}")
    ResponseEntity<byte[]> get(@PathVariable FileId id) {
        StoredFile file = files.require(id);
        if (!file.mediaType().startsWith("image/")) {
            throw new FieldRefusal("photo", "tablet.photo-not-an-image");
        }
        return picture(MediaType.parseMediaType(file.mediaType()), file.content());
    }

    /** The photo as a tablet takes it along, to compare with: a JPEG of 320 pixels at most. */
    @GetMapping("/api/photos/{id}/small")
    ResponseEntity<byte[]> small(@PathVariable FileId id) {
        return picture(MediaType.IMAGE_JPEG, photos.small(id));
    }

    private static ResponseEntity<byte[]> picture(MediaType type, byte[] content) {
        return ResponseEntity.ok()
                .contentType(type)
                .cacheControl(CacheControl.maxAge(Duration.ofDays(30)).cachePrivate())
                .body(content);
    }
}
