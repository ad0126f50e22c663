package org.mixaccord.measure;

/** How much a finding matters. */
public enum Severity {
  /** Worth knowing; often meant. */
  HINT,
  /** Worth a listen before the bounce goes on. */
  WARNING,
  /** Breaks what was agreed, or is audible damage. */
  FAULT
}
