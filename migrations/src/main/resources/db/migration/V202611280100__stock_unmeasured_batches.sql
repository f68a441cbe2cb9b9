-- A batch may be let out although nobody measured it: by a person, who says why. Measured later, the reading is kept here too.
alter table water_batch
    add column released_unmeasured boolean not null default false,
    -- of one that was let out unmeasured: when it was measured within its target, or a person said what became of it
    add column answered_at         timestamptz,
    add column answered_by         uuid references person (id),
    add column answer              text check (answer <> ''),
    drop constraint water_batch_check1,
    add constraint water_batch_measured check (
        case
            when released_at is null then reading_id is null
            else reading_id is not null or released_unmeasured
        end
    ),
    add constraint water_batch_unmeasured check (
        not released_unmeasured
        or (released_at is not null and released_by is not null and release_reason is not null)
    ),
    add constraint water_batch_answered check (answered_at is null or released_unmeasured);
create index water_batch_answered_by on water_batch (answered_by);
