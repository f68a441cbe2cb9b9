package app.tankround.web;

import java.util.List;

/**
 * A form that knows the version of the record that it was opened on.
 *
 * @param <F> the form's own type
 */
public interface VersionedForm<F extends VersionedForm<F>> {

    /** Of the record when the form was opened; 0 for one that is to be added. */
    int version();

    /** The same content, opened on another version. */
    F withVersion(int newest);

    /** In what this form differs from one that holds what is stored now. */
    default List<FormDifference> differencesFrom(F stored) {
        return FormDifference.between(stored, this);
    }
}
