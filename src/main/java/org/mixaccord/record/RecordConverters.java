package org.mixaccord.record;

import jakarta.persistence.AttributeConverter;
import jakarta.persistence.Converter;
import org.mixaccord.changes.ChangeAnswer;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.review.ApprovalDecision;

/** Keeps enumerations in the database under their names on the wire. */
final class RecordConverters {
  private RecordConverters() {}

  @Converter
  static class State implements AttributeConverter<ChangeState, String> {
    @Override
    public String convertToDatabaseColumn(ChangeState state) {
      return state.wire();
    }

    @Override
    public ChangeState convertToEntityAttribute(String column) {
      return ChangeState.of(column).orElseThrow();
    }
  }

  @Converter
  static class Answer implements AttributeConverter<ChangeAnswer, String> {
    @Override
    public String convertToDatabaseColumn(ChangeAnswer answer) {
      return answer == null ? null : answer.wire();
    }

    @Override
    public ChangeAnswer convertToEntityAttribute(String column) {
      return column == null ? null : ChangeAnswer.of(column).orElseThrow();
    }
  }

  @Converter
  static class Decision implements AttributeConverter<ApprovalDecision, String> {
    @Override
    public String convertToDatabaseColumn(ApprovalDecision decision) {
      return decision.wire();
    }

    @Override
    public ApprovalDecision convertToEntityAttribute(String column) {
      return ApprovalDecision.of(column).orElseThrow();
    }
  }
}
