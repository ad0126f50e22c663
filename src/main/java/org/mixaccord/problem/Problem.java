package org.mixaccord.problem;

/**
 * The one catalogue of problems a caller can be told about: the code on the wire, its HTTP status
 * and its fixed title. Each has its paragraph in docs/api.md.
 */
public enum Problem {
  NOT_SIGNED_IN(401, "You are not signed in"),
  WRONG_CREDENTIALS(401, "That address and password do not belong together"),
  SIGN_IN_FIRST(401, "Sign in to your account first"),
  NOT_ALLOWED(403, "That is not yours to do here"),
  CROSS_SITE(403, "This came from another site"),
  NOT_FOUND(404, "There is nothing here for you"),
  METHOD_NOT_ALLOWED(405, "This address does not take that method"),
  NOT_ACCEPTABLE(406, "This address cannot answer in that form"),
  WRONG_STATE(409, "That is not possible at this point"),
  IN_PROGRESS(409, "The same request is still being worked on"),
  HASH_DIFFERS(409, "That is not the audio of this mix"),
  OPEN_POINTS(409, "Something still stands before approval"),
  LAYOUT_DIFFERS(409, "These two have different channels"),
  NOT_MEASURED(409, "This mix has not been measured yet"),
  NO_BOUNCE(409, "There is no mix yet"),
  SECTION_NAME_TAKEN(409, "Two sections have the same name"),
  INVITATION_USED(410, "This invitation has been used"),
  INVITATION_EXPIRED(410, "This invitation has run out"),
  LINK_USED(410, "This link has been used or has run out"),
  CHANGED_MEANWHILE(412, "Somebody changed this first"),
  OTHER_PROTOCOL(412, "That version of the upload protocol is not spoken here"),
  TOO_LARGE(413, "That is too large"),
  NOTE_TOO_LONG(413, "That note is too long"),
  QUOTA_FULL(413, "This project has no room left"),
  UNSUPPORTED_MEDIA_TYPE(415, "This address does not take that media type"),
  RANGE_NOT_THERE(416, "The file has no such part"),
  MALFORMED(400, "The request could not be read"),
  INVALID(422, "Something in the request cannot be used"),
  BAD_TEXT(422, "The text holds characters that cannot be kept"),
  UNKNOWN_ROLE(422, "There is no such role"),
  EMPTY_UPLOAD(422, "The file is empty"),
  SECTION_PAST_END(422, "A section lies outside the mix"),
  SECTIONS_OVERLAP(422, "Two sections overlap"),
  NOT_AUDIO(422, "This is not an audio file"),
  UNSUPPORTED_FORMAT(422, "This kind of audio file is not supported"),
  NO_AUDIO_FRAMES(422, "There is no audio in this file"),
  NOT_MIDI(422, "This MIDI file cannot be used"),
  UPLOAD_CUT(400, "The upload ended too early"),
  IF_MATCH_REQUIRED(428, "Say which state you are changing"),
  CHECKSUM_DIFFERS(460, "A piece of the file came changed"),
  SLOW_DOWN(429, "Too many at once"),
  SERVER_FAULT(500, "Something went wrong on the server"),
  BUSY(503, "The server is busy"),
  DISK_FULL(507, "The server has no room left");

  private final int status;
  private final String title;

  Problem(int status, String title) {
    this.status = status;
    this.title = title;
  }

  /** HTTP status. */
  public int status() {
    return status;
  }

  /** Fixed title in plain words. */
  public String title() {
    return title;
  }

  /** Code on the wire, kebab case. */
  public String code() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }
}
