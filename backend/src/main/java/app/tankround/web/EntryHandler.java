package app.tankround.web;

import java.util.List;

/**
 * Gives entries of some kinds their effect. Called inside the inbox's transaction, which also keeps the entry and the
 * answer; a refusal is an answer, not an exception.
 */
public interface EntryHandler {

    boolean handles(String kind);

    EntryAnswer apply(Entry entry);

    /**
     * Applies entries that arrived together, in their order: what they do and how they are answered is the same as one by
     * one. A refusal may come as an exception; the caller keeps nothing of them then.
     */
    default List<EntryAnswer> applyAll(List<Entry> entries) {
        return entries.stream().map(this::apply).toList();
    }
}
