package app.tankround.network;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.PrivateKey;
import java.security.cert.CertificateEncodingException;
import java.security.cert.X509Certificate;
import java.util.Base64;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.ssl.pem.PemContent;

/** Certificates and keys as text (RFC 7468). */
final class PemFile {

    private static final int LINE = 64;

    private PemFile() {}

    /**
     * A certificate, or several, and a key.
     *
     * @param keyFile may be the same file
     * @throws IOException if a file cannot be read
     * @throws IllegalArgumentException if they hold something else
     */
    static Identity read(Path certificateFile, Path keyFile) throws IOException {
        String certificates = Files.readString(certificateFile);
        String keys = Files.readString(keyFile);
        @Nullable List<X509Certificate> chain;
        @Nullable PrivateKey key;
        try {
            chain = PemContent.of(certificates).getCertificates();
            key = PemContent.of(keys).getPrivateKey();
        } catch (RuntimeException notThat) {
            throw new IllegalArgumentException(notThat);
        }
        if (chain == null || chain.isEmpty() || key == null) {
            throw new IllegalArgumentException("no certificate with a key");
        }
        return new Identity(chain, key);
    }

    /** Writes both into one file that only its owner can read, all or nothing. */
    static void write(Path file, Identity identity) throws IOException {
        Path directory = Objects.requireNonNull(file.getParent());
        Files.createDirectories(
                directory, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------")));
        Path unfinished = directory.resolve(file.getFileName() + ".new");
        Files.deleteIfExists(unfinished);
        try (FileChannel channel = FileChannel.open(
                unfinished,
                Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE),
                PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")))) {
            ByteBuffer text = StandardCharsets.US_ASCII.encode(text(identity));
            while (text.hasRemaining()) {
                channel.write(text);
            }
            channel.force(true);
        }
        Files.move(unfinished, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    }

    private static String text(Identity identity) {
        var text = new StringBuilder(block("PRIVATE KEY", identity.key().getEncoded()));
        identity.chain().forEach(certificate -> text.append(text(certificate)));
        return text.toString();
    }

    static String text(X509Certificate certificate) {
        try {
            return block("CERTIFICATE", certificate.getEncoded());
        } catch (CertificateEncodingException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    private static String block(String label, byte[] bytes) {
        String body = Base64.getMimeEncoder(LINE, new byte[] {'\n'}).encodeToString(bytes);
        return "-----BEGIN %s-----\n%s\n-----END %s-----\n".formatted(label, body, label);
    }
}
