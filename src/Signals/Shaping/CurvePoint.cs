namespace Athwart.Signals.Shaping;

/// <summary>A gain at a frequency.</summary>
/// <param name="Hertz">Frequency in hertz.</param>
/// <param name="Decibels">Gain in decibels.</param>
public readonly record struct CurvePoint(double Hertz, double Decibels);
