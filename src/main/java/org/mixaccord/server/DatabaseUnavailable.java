package org.mixaccord.server;

/**
 * The database that comes with Mixaccord cannot run here; the message is meant for the operator.
 */
public class DatabaseUnavailable extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public DatabaseUnavailable(String message) {
    super(message);
  }

  public DatabaseUnavailable(String message, Throwable cause) {
    super(message, cause);
  }
}
