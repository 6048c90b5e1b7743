namespace Athwart.Metering.Slate;

/// <summary>Ten milliseconds of the head of a take.</summary>
/// <param name="MidDecibels">Level of the mid from 100 Hz to 3 kHz.</param>
/// <param name="SideDecibels">Level of the side there.</param>
/// <param name="Voicing">How alike the mid is to itself one period later, 0 to 1.</param>
/// <param name="PitchHertz">The pitch of that period, 80 to 300 Hz.</param>
internal readonly record struct VoiceFrame(double MidDecibels, double SideDecibels, double Voicing, double PitchHertz);
