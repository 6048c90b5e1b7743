namespace Athwart.Jobs.Evidences;

/// <summary>A mid/side pair that can be read anywhere.</summary>
internal interface IPairSound
{
    /// <summary>Frames a second.</summary>
    int SampleRateHertz { get; }

    /// <summary>Length in frames.</summary>
    long Frames { get; }

    /// <summary>Whether it has a side.</summary>
    bool HasSide { get; }

    /// <summary>Reads frames from one up to, not including, another; what is not there is silence.</summary>
    (float[] Mid, float[] Side) Read(long from, long to);
}
