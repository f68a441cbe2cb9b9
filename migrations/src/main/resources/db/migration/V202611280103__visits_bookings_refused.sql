-- Why what a visit used could not be booked, and when that was tried last; it is tried again, and others go on meanwhile.
alter table visit
    add column booking_refused  text check (booking_refused <> ''),
    add column booking_tried_at timestamptz,
    add constraint visit_booking_refused check ((booking_refused is null) = (booking_tried_at is null));
