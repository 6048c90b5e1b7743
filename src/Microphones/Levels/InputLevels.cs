namespace Athwart.Microphones.Levels;

/// <summary>Between a level in dBu at an input and the level recorded, at a gain.</summary>
/// <remarks>
/// The maximum input level is the RMS of the sine that just reaches full scale at the lowest gain; each decibel of gain above the
/// lowest lowers what reaches full scale by one decibel. 0 dBFS is that sine (AES17), so a sine's RMS and peak read the same.
/// Any pad is taken to be off.
/// </remarks>
public static class InputLevels
{
    /// <summary>The level in dBu that reaches full scale at a gain: maximum − (gain − lowest gain).</summary>
    public static double FullScaleDecibelsU(double maximumInputDecibelsU, double minimumGainDecibels, double gainDecibels)
        => maximumInputDecibelsU - (gainDecibels - minimumGainDecibels);

    /// <summary>The level in dBFS of a level in dBu at a gain; above 0 it clips.</summary>
    public static double ToDecibelsFullScale(double decibelsU, double maximumInputDecibelsU, double minimumGainDecibels, double gainDecibels)
        => decibelsU - FullScaleDecibelsU(maximumInputDecibelsU, minimumGainDecibels, gainDecibels);

    /// <summary>The sine in dB SPL on a microphone's axis that reaches full scale at a gain.</summary>
    public static double FullScaleSoundDecibels(double millivoltsPerPascal, double maximumInputDecibelsU, double minimumGainDecibels, double gainDecibels)
        => MicrophoneLevels.SoundDecibels(millivoltsPerPascal, FullScaleDecibelsU(maximumInputDecibelsU, minimumGainDecibels, gainDecibels));

    /// <summary>The highest gain on the steps, counted up from the lowest, that does not exceed a limit; the limit itself where the control turns freely (step 0).</summary>
    /// <returns>Null when the limit lies below the lowest gain.</returns>
    public static double? HighestStep(double limitDecibels, double minimumGainDecibels, double maximumGainDecibels, double stepDecibels)
    {
        if (limitDecibels < minimumGainDecibels)
            return null;
        var limit = Math.Min(limitDecibels, maximumGainDecibels);
        // A limit that lies on a step up to rounding counts as that step.
        return Require.NotNegative(stepDecibels) == 0
            ? limit
            : minimumGainDecibels + (Math.Floor(((limit - minimumGainDecibels) / stepDecibels) + 1e-9) * stepDecibels);
    }
}
