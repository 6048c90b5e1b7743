namespace Athwart.Microphones.Patterns;

/// <summary>How strongly a microphone hears a sound by the direction it comes from, alike all around its axis.</summary>
public interface IPattern
{
    /// <summary>The pattern's name as the trade says it, such as 'cardioid', or 'measured'.</summary>
    string Name { get; }

    /// <summary>The signed amplitude against the axis at the same frequency: 1 on the axis, negative in a lobe of opposite polarity.</summary>
    /// <param name="angleRadians">Off the microphone's own axis; any value, even in the sign.</param>
    /// <param name="frequencyHertz">Above 0; ignored by patterns that are the same at every frequency.</param>
    double Gain(double angleRadians, double frequencyHertz);
}
