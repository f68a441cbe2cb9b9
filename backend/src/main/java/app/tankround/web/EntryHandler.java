package app.tankround.web;

/**
 * Gives entries of some kinds their effect. Called inside the inbox's transaction, which also keeps the entry and the
 * answer; a refusal is an answer, not an exception.
 */
public interface EntryHandler {

    boolean handles(String kind);

    EntryAnswer apply(Entry entry);
}
