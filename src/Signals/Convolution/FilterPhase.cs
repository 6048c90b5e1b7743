namespace Athwart.Signals.Convolution;

/// <summary>What a filter drawn as a curve does to time.</summary>
public enum FilterPhase
{
    /// <summary>As little delay as the curve allows: nothing sounds before its time, phases turn where the curve bends.</summary>
    Minimum,

    /// <summary>Every frequency is delayed alike, which the latency takes back: phases stay, steep curves ring before and after.</summary>
    Linear,
}
