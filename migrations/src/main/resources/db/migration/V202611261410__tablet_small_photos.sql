-- A photo as a tablet takes it along to compare with: made once, when it is first asked for.
create table small_photo (
    file_id        uuid        primary key references stored_file (id),
    content        bytea       not null check (octet_length(content) > 0)
);
