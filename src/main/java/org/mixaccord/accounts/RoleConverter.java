package org.mixaccord.accounts;

import jakarta.persistence.AttributeConverter;
import jakarta.persistence.Converter;

/** Keeps roles in the database under their name on the wire. */
@Converter
class RoleConverter implements AttributeConverter<Role, String> {
  @Override
  public String convertToDatabaseColumn(Role role) {
    return role.wire();
  }

  @Override
  public Role convertToEntityAttribute(String column) {
    return Role.of(column);
  }
}
