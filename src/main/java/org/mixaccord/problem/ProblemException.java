package org.mixaccord.problem;

import java.util.LinkedHashMap;
import java.util.Map;

/** Ends a request with a problem of the catalogue and what the person can do about it. */
public final class ProblemException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final Problem problem;
  private final transient Map<String, Object> fields = new LinkedHashMap<>();

  /**
   * Refuses a request.
   *
   * @param problem the entry of the catalogue
   * @param detail one or two sentences a musician understands: what is wrong, what to do
   */
  public ProblemException(Problem problem, String detail) {
    super(detail, null, false, false);
    this.problem = problem;
  }

  /** Adds an extension field to the answer. */
  public ProblemException with(String field, Object value) {
    fields.put(field, value);
    return this;
  }

  /** The entry of the catalogue. */
  public Problem problem() {
    return problem;
  }

  /** Extension fields, in the order they were added. */
  public Map<String, Object> fields() {
    return fields;
  }
}
