-- What was agreed with a site that keeps people from harm there; a site of which nobody has said anything has no row.
create table site_safety (
    site_id                uuid     primary key references site (id),
    residual_current_test  text     not null
        check (residual_current_test in ('NOT_ASKED', 'AGREED', 'NOT_AGREED', 'NEVER')),
    -- why not, or what to mind
    residual_current_note  text,
    -- why somebody who is alone there checks in and out
    check_in_for           text     not null
        check (check_in_for in ('NOTHING', 'CO2_CELLAR', 'PIT', 'LADDER', 'NIGHT', 'OTHER')),
    check_in_note          text,
    version                integer  not null,
    check (residual_current_test <> 'NEVER' or residual_current_note is not null),
    check (check_in_for <> 'OTHER' or check_in_note is not null),
    check (check_in_for <> 'NOTHING' or check_in_note is null)
);
