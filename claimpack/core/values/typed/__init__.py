"""Values as people type them: amounts, days, periods, answers chosen, addresses; read where there is one reading."""
