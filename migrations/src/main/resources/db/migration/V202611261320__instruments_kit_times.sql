-- How long the sample of a kit or photometer is shaken, then waits, and within which time it must be read after that. Left
-- empty, a kit has the times that are usual for its kind.
alter table instrument
    add column shake_seconds integer check (shake_seconds between 0 and 600),
    add column wait_seconds integer check (wait_seconds between 0 and 7200),
    add column read_within_seconds integer check (read_within_seconds between 0 and 7200),
    add check (kind in ('TITRATION_KIT', 'COLOUR_KIT', 'PHOTOMETER')
        or (shake_seconds is null and wait_seconds is null and read_within_seconds is null));
