"""Whether the broker answers, asked without the patience that its own client has."""

from redis import Redis
from redis.backoff import NoBackoff
from redis.retry import Retry

WAIT_S = 1.0


def ping(url: str) -> None:
    """Return when the Redis at `url` answers within a second; raises redis.RedisError when it does not.

    The client's default tries again for several seconds, which someone who has just logged a set would feel.
    """
    with Redis.from_url(
        url, socket_connect_timeout=WAIT_S, socket_timeout=WAIT_S, retry=Retry(NoBackoff(), 0)
    ) as client:
        client.ping()
