namespace Athwart.Jobs.Render;

/// <summary>The levels that a trim can aim at.</summary>
/// <param name="SamplePeak">The highest sample, full scale 1; 0 for silence.</param>
/// <param name="TruePeakDecibels">The true peak in dBTP; −∞ for silence, NaN when not measured.</param>
/// <param name="IntegratedLufs">Integrated loudness in LUFS; −∞ when nothing was loud enough, NaN when not measured.</param>
public sealed record ProgrammeLevels(double SamplePeak, double TruePeakDecibels, double IntegratedLufs);

/// <summary>Measures true peak and loudness of a stereo stream in order.</summary>
public interface IProgrammeMeter
{
    /// <summary>The next frames, full scale ±1.</summary>
    void Add(ReadOnlySpan<float> left, ReadOnlySpan<float> right);

    /// <summary>The true peak in dBTP and the integrated loudness in LUFS of everything added.</summary>
    (double TruePeakDecibels, double IntegratedLufs) Complete();
}
