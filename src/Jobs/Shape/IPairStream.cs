namespace Athwart.Jobs.Shape;

/// <summary>Mid and side frame after frame, from any frame on.</summary>
internal interface IPairStream
{
    /// <summary>The first frame there is sound from; nothing before it has a say.</summary>
    long Earliest { get; }

    /// <summary>Goes to a frame: the next one read has this number.</summary>
    void Begin(long frame);

    /// <summary>The next frames, full scale ±1; silence outside the sound there is.</summary>
    void Read(Span<double> mid, Span<double> side);
}
