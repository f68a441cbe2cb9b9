/** Stored files, versions of documents, and mail. */
@org.springframework.modulith.ApplicationModule(allowedDependencies = {"units", "persistence", "web", "accounts"})
@NullMarked
package app.tankround.documents;

import org.jspecify.annotations.NullMarked;
