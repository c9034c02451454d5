"""
What can hurt a person or a thing while a procedure is performed: one small room for each hazard, all read the trace.

Each room finds where its hazard begins and ends on the straight pass, and says it in words with places for numbers.
"""
