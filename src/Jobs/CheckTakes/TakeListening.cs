using Athwart.Jobs.LineUp;
using Athwart.Quantities;

namespace Athwart.Jobs.CheckTakes;

/// <summary>How takes are listened to.</summary>
/// <param name="SideLevel">At which side level the decode is judged.</param>
/// <param name="Disturbances">Whether clicks, hum, wind, a spoken head, the direction of sounds and the width are listened for too.</param>
/// <param name="Rig">The profile of the rig they were recorded with; null when none is attached.</param>
internal sealed record TakeListening(Decibels SideLevel, bool Disturbances, RigProfileDocument? Rig = null)
{
    /// <summary>A of the mid: the profile's, else a cardioid's.</summary>
    public double MidPattern => Rig?.MidPattern is > 0 and <= 1 and var a ? a : 0.5;
}
